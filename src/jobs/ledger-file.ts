import { largestTable } from '../notation/csv.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Ledger } from '../trim/worklist/ledger/ledger.ts';
import { readLedger } from '../trim/worklist/ledger/read-ledger.ts';

/**
 * Reads the record of a worklist.
 *
 * @param path as the user named it
 * @returns null when nothing is there
 * @throws {InputError} when it can't be read or is not sound
 */
export const loadLedger = async (files: Files, path: string): Promise<Ledger | null> => {
  const info = await files.info(path);
  if (info === null) return null;
  if (info.size > largestTable) {
    throw inputError('ledger-unreadable', path, { problem: 'too-large' }, { line: 1, column: 1 });
  }
  return readLedger(await files.read(path), path);
};
