/** Why the system refused, in words that a person can act on. */
export interface Reason {
  /** Nothing is at the path. */
  readonly missing: boolean;
  readonly words: string;
}

const words: Readonly<Record<string, string>> = {
  EACCES: 'you are not allowed to',
  EPERM: 'you are not allowed to',
  EISDIR: 'it is a folder',
  EEXIST: 'a file is in the way',
  ENOTDIR: 'part of the path is not a folder',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  EMFILE: 'too many files are open',
  ELOOP: 'its links go round in a circle',
  ENAMETOOLONG: 'the name is too long',
  ENOENT: 'the folder does not exist',
  EIO: 'the disk reports an error',
};

/** Translates a system error; anything else is passed on as it is. */
export const reasonOf = (error: unknown): Reason => {
  if (!(error instanceof Error) || !('code' in error)) throw error;
  const code = String(error.code);
  return {
    missing: code === 'ENOENT' || code === 'ENOTDIR',
    words: words[code] ?? `the system says ${code}`,
  };
};
