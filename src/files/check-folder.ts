import { basename, dirname } from 'node:path';
import { inputError } from '../terms/errors.ts';
import { attempt, orMissing } from './attempt.ts';
import { diskCalls, type FolderCalls } from './folder-calls.ts';
import { liesIn } from './lies-in.ts';
import { othersIn, readOwnList } from './own-list.ts';

/** What is to be written, and over what. */
export interface FolderOptions {
  /** Whether a folder that was written before is written again. */
  readonly force: boolean;
  /** Files that are read: the folder must hold none of them. */
  readonly inputs: readonly string[];
  /** Bytes that will be written. */
  readonly bytes: number;
}

/** What is at the output. `ours`: a folder that was written before, and may be replaced. */
export type Occupant = 'nothing' | 'empty' | 'ours';

/** As many names are enough for a message. */
const mostNames = 5;

/**
 * Finds out before the work that a folder can't be written at `out`. Makes and changes nothing.
 *
 * @throws {InputError} `trim-out-kind`, `trim-out-input`, `trim-out-exists`, `trim-out-others`,
 *   `trim-no-space`, `output-unwritable`; `path-unreadable` when it can't be told where an input lies
 */
export const checkFolder = async (
  out: string,
  options: FolderOptions,
  calls: FolderCalls = diskCalls,
): Promise<void> => {
  await Promise.resolve();
  lookForPlace(out, options, calls);
};

/**
 * The looking itself.
 *
 * @returns the folders above `out` that are not there yet, the uppermost first
 * @throws {InputError} as {@link checkFolder}
 */
export const lookForPlace = (
  out: string,
  options: FolderOptions,
  calls: FolderCalls,
): readonly string[] => {
  const folder = withoutSlash(out);
  if (['', '.', '..'].includes(basename(folder))) {
    throw inputError('output-unwritable', out, { reason: 'it is not the name of a folder' });
  }
  occupantOf(out, options, calls);
  const { nearest, missing } = attempt(out, () => {
    const place = nearestFolder(folder, calls);
    calls.mayWriteIn(place.nearest);
    return place;
  });
  const free = freeIn(nearest, calls);
  if (free !== null && free < options.bytes) {
    throw inputError('trim-no-space', out, { needed: options.bytes, free });
  }
  return missing;
};

/**
 * What is at `out` and may give way.
 *
 * @throws {InputError} where it may not
 */
export const occupantOf = (
  out: string,
  { force, inputs }: FolderOptions,
  calls: FolderCalls,
): Occupant => {
  const folder = withoutSlash(out);
  const there = attempt(out, () => orMissing(() => calls.lstat(folder)));
  if (there === null) return 'nothing';
  if (!there.isDirectory()) {
    const kind = there.isSymbolicLink() ? 'link' : 'file';
    throw inputError('trim-out-kind', out, { kind });
  }
  const isWithin = liesIn(calls, there);
  for (const input of inputs) {
    if (attempt(input, () => isWithin(input), 'path-unreadable'))
      throw inputError('trim-out-input', out, { input });
  }
  if (attempt(out, () => isWithin('.'))) {
    throw inputError('output-unwritable', out, { reason: 'the working folder lies in it' });
  }
  if (attempt(out, () => calls.list(folder)).length === 0) return 'empty';
  const list = readOwnList(calls, folder);
  if (list === null || !force) {
    const reason = list === null ? 'not-ours' : 'ours';
    throw inputError('trim-out-exists', out, { reason });
  }
  const names = attempt(out, () => othersIn(calls, folder, list, mostNames));
  if (names.length > 0) throw inputError('trim-out-others', out, { names });
  return 'ours';
};

/** A link is looked through when a slash follows it. */
export const withoutSlash = (path: string): string =>
  path.replace(process.platform === 'win32' ? /[\\/]+$/ : /\/+$/, '');

const nearestFolder = (
  path: string,
  calls: FolderCalls,
): { readonly nearest: string; readonly missing: readonly string[] } => {
  const missing: string[] = [];
  let at = dirname(path);
  while (dirname(at) !== at && orMissing(() => calls.stat(at)) === null) {
    missing.unshift(at);
    at = dirname(at);
  }
  return { nearest: at, missing };
};

/** Not every disk says so: then what is written shows it. */
const freeIn = (folder: string, calls: FolderCalls): number | null => {
  try {
    return calls.free(folder);
  } catch {
    return null;
  }
};
