import { randomBytes } from 'node:crypto';
import { inputError } from '../terms/errors.ts';
import { attempt, isOfSystem, tried } from './attempt.ts';
import type { Occupant } from './check-folder.ts';
import type { FolderCalls } from './folder-calls.ts';

/**
 * Puts a folder that is whole into its place. In between, nothing is there, and both lie beside it.
 *
 * @param draft the folder
 * @param place without a closing slash
 * @param occupant what is there
 * @returns where the folder that was there is when it can't be removed, null otherwise
 * @throws {InputError} `output-unwritable`; what was there is there again
 */
export const takePlace = (
  calls: FolderCalls,
  draft: string,
  place: string,
  occupant: Occupant,
): string | null =>
  attempt(place, () => {
    if (occupant === 'nothing') {
      calls.rename(draft, place);
      return null;
    }
    if (occupant === 'empty') {
      calls.removeEmpty(place);
      renameOr(calls, draft, place, () => calls.makeFolder(place));
      return null;
    }
    const old = `${place}.${randomBytes(4).toString('hex')}.old`;
    calls.rename(place, old);
    renameOr(calls, draft, place, () => {
      // Nothing of it is lost, and the person has to know where it is.
      if (!tried(() => calls.rename(old, place))) {
        const reason = `what was there before is now ${old}`;
        throw inputError('output-unwritable', place, { reason });
      }
    });
    return tried(() => calls.removeAll(old)) ? null : old;
  });

const renameOr = (calls: FolderCalls, from: string, to: string, undo: () => void): void => {
  try {
    calls.rename(from, to);
  } catch (error) {
    if (isOfSystem(error)) undo();
    throw error;
  }
};
