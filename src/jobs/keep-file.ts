import { sha256 } from '../files/digest.ts';
import { mostKeepFileBytes } from '../keep/keep-file/parse-json.ts';
import { readKeepFile } from '../keep/keep-file/read-keep-file.ts';
import type { Plan } from '../keep/plan.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';

/** A keep file as a job has it. */
export interface LoadedKeepFile {
  readonly path: string;
  readonly sha256: string;
  readonly plan: Plan;
}

/**
 * Reads a keep file.
 *
 * @param path as the user named it
 * @throws {InputError} when it is not there, or is not sound
 */
export const loadKeepFile = async (files: Files, path: string): Promise<LoadedKeepFile> => {
  const size = (await files.info(path))?.size ?? 0;
  if (size > mostKeepFileBytes) throw inputError('keep-file-large', path, { bytes: size });
  const bytes = await files.read(path);
  return { path, sha256: sha256(bytes), plan: readKeepFile(bytes, path) };
};
