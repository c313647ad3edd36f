import { closeSync, constants, fstatSync, open, read } from 'node:fs';
import { promisify } from 'node:util';
import { inputError, type InputError } from '../terms/errors.ts';
import type { OpenFile } from '../terms/files.ts';
import { reasonOf } from './reason.ts';

/** Opening a pipe would wait for its writer; the system may not know the flag. */
export const withoutWaiting =
  constants.O_RDONLY | ((constants.O_NONBLOCK as number | undefined) ?? 0);

/** Bare descriptors: with handles, twenty thousand files take half as long again. */
const openFile = promisify(open);
const readInto = promisify(read);

/**
 * What `use` makes of a regular file, which is open meanwhile. Of all that is done here only opening and
 * reading can wait for a disk, so the rest is done at once: a thread for each step would cost more.
 *
 * @returns null when nothing is at `path`
 * @throws {InputError} `path-not-a-file`; `path-unreadable`; `path-changed-while-read` when it became
 *   shorter meanwhile
 */
export const useFile = async <Result>(
  path: string,
  use: (file: OpenFile) => Promise<Result>,
): Promise<Result | null> => {
  const opened = await opening(path);
  if (opened === null) return null;
  const { descriptor, size } = opened;
  const readStretch = async (offset: number, length: number): Promise<Uint8Array> => {
    const bytes = new Uint8Array(Math.max(0, Math.min(length, size - offset)));
    if ((await fill(path, descriptor, bytes, offset)) < bytes.length) {
      throw inputError('path-changed-while-read', path, {});
    }
    return bytes;
  };
  try {
    return await use({ size, read: readStretch });
  } finally {
    closeSync(descriptor);
  }
};

interface Opened {
  readonly descriptor: number;
  readonly size: number;
}

const opening = async (path: string): Promise<Opened | null> => {
  try {
    const descriptor = await openFile(path, withoutWaiting);
    const stats = fstatSync(descriptor);
    if (stats.isFile()) return { descriptor, size: stats.size };
    closeSync(descriptor);
  } catch (error) {
    const reason = reasonOf(error);
    if (reason.missing) return null;
    throw unreadable(path, error);
  }
  throw inputError('path-not-a-file', path, {});
};

/** The bytes that there are from `offset`, at most as many as go into `bytes`; how many. */
const fill = async (
  path: string,
  descriptor: number,
  bytes: Uint8Array,
  offset: number,
): Promise<number> => {
  let filled = 0;
  try {
    while (filled < bytes.length) {
      const wanted = bytes.length - filled;
      const { bytesRead } = await readInto(descriptor, bytes, filled, wanted, offset + filled);
      if (bytesRead === 0) break;
      filled += bytesRead;
    }
  } catch (error) {
    throw unreadable(path, error);
  }
  return filled;
};

const unreadable = (path: string, error: unknown): InputError =>
  inputError('path-unreadable', path, { reason: reasonOf(error).code });
