import { printable } from '../../terms/printable.ts';

/** What the operating system's error names mean (POSIX.1-2017, "Error Numbers"). */
const systemErrors: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EPERM: 'not permitted',
  ENOENT: 'the folder does not exist',
  ENOTDIR: 'part of the path is not a folder',
  EISDIR: 'it is a folder',
  EEXIST: 'a file is in the way',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  EIO: 'the disk reports an error',
  EMFILE: 'too many files are open',
  ENFILE: 'too many files are open',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'links that lead in a circle',
  EBUSY: 'it is in use',
};

/** A reason a finding carries, as words: an error name is translated, anything else shown as it is. */
export const reasonInWords = (reason: string): string => systemErrors[reason] ?? printable(reason);
