import { randomBytes } from 'node:crypto';
import { rmSync, type Stats } from 'node:fs';
import { access, constants, mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import { inputError } from '../terms/errors.ts';
import { takesPlace } from './places-taken.ts';
import { reasonOf } from './reason.ts';

/**
 * Finds out before the work, not after it, that `path` can't be written. Writes nothing.
 *
 * @throws {InputError} `output-unwritable`
 */
export const checkWritable = async (path: string): Promise<void> => {
  try {
    await refuseOthers(path);
    // With the dot, a file in the folder's place is noticed.
    await access(`${dirname(path)}/.`, constants.W_OK);
  } catch (error) {
    throw unwritable(path, error);
  }
};

/**
 * Writes a file whole or not at all: into a temporary file beside it, then renamed into place.
 *
 * @throws {InputError} `output-unwritable`; what was at `path` is then as it was
 */
export const writeWhole = async (path: string, content: Uint8Array | string): Promise<void> => {
  const draft = `${path}.${randomBytes(4).toString('hex')}.part`;
  // The process may be told to end at any time.
  const tidyUp = (): void => {
    rmSync(draft, { force: true });
  };
  process.once('exit', tidyUp);
  try {
    await refuseOthers(path);
    const handle = await open(draft, 'wx');
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    takesPlace();
    await rename(draft, path);
  } catch (error) {
    await rm(draft, { force: true }).catch(() => undefined);
    throw unwritable(path, error);
  } finally {
    process.off('exit', tidyUp);
  }
};

/** Makes the folder that `path` lies in. */
export const makeFolderOf = async (path: string): Promise<void> => {
  try {
    await mkdir(dirname(path), { recursive: true });
  } catch (error) {
    throw unwritable(path, error);
  }
};

/** Only a file is written over: never a folder, a device or a pipe. */
const refuseOthers = async (path: string): Promise<void> => {
  if (/(?:^|\/)$/.test(path)) {
    throw inputError('output-unwritable', path, { reason: 'it is not the name of a file' });
  }
  const there = await statsOf(path);
  if (there !== null && !there.isFile()) {
    throw inputError('output-unwritable', path, {
      reason: 'something that is not a file is there',
    });
  }
};

const statsOf = async (path: string): Promise<Stats | null> => {
  try {
    return await stat(path);
  } catch (error) {
    if (reasonOf(error).missing) return null;
    throw error;
  }
};

const unwritable = (path: string, error: unknown): unknown =>
  error instanceof Error && 'code' in error
    ? inputError('output-unwritable', path, { reason: reasonOf(error).code })
    : error;
