import { inputError } from '../terms/errors.ts';
import { reasonOf } from './reason.ts';

/**
 * What `act` gives; where the system refuses, that `path` can't be written, or read.
 *
 * @throws {InputError} `code`; what is no error of the system is passed on
 */
export const attempt = <T>(
  path: string,
  act: () => T,
  code: 'output-unwritable' | 'path-unreadable' = 'output-unwritable',
): T => {
  try {
    return act();
  } catch (error) {
    throw isOfSystem(error) ? inputError(code, path, { reason: reasonOf(error).code }) : error;
  }
};

/** What `act` gives; null where nothing is at its path. */
export const orMissing = <T>(act: () => T): T | null => {
  try {
    return act();
  } catch (error) {
    if (isOfSystem(error) && reasonOf(error).missing) return null;
    throw error;
  }
};

/** Does what may be left undone. @returns false when the system refuses */
export const tried = (act: () => void): boolean => {
  try {
    act();
    return true;
  } catch (error) {
    if (!isOfSystem(error)) throw error;
    return false;
  }
};

export const isOfSystem = (error: unknown): boolean => error instanceof Error && 'code' in error;
