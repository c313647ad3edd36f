import {
  askedPath,
  keptPath,
  type AskedFile,
} from '../../instruments/sfz/samples/region-samples.ts';
import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import { withSlashes } from '../../instruments/sfz/text/paths.ts';
import { inputError } from '../../terms/errors.ts';
import { isAbsolute } from '../paths.ts';
import type { TrimSet } from '../trim-set.ts';
import type { Fates } from './fates.ts';
import { folded } from './fresh-names.ts';
import type { PlayedFiles } from './played-files.ts';

/**
 * What an instrument names by its whole path stays where it is: a copy beside the smaller instrument
 * would never be looked at, and the smaller one would go on reading the full one's files. Where nothing
 * of the instrument stays, or no file is there to be copied, it does not matter.
 *
 * @throws {InputError} `trim-path`
 */
export const refuseAbsolute = (
  { files, inclusions }: SfzDocument,
  { regions, found }: Pick<PlayedFiles, 'regions' | 'found'>,
  { kept }: Pick<Fates, 'kept'>,
  { loaded }: TrimSet,
): void => {
  if (kept.length === 0) return;
  const root = files[0]!.path;
  const refuse = (path: string): void => {
    if (isAbsolute(path)) throw inputError('trim-path', root, { path, reason: 'absolute' });
  };
  for (const { place, written } of inclusions) {
    if (place !== null) refuse(withSlashes(written));
  }
  for (const number of kept) {
    const one = regions[number]!;
    if (one.kind !== 'file' || !loaded.has(number)) continue;
    const path = found.get(one.file);
    if (path !== undefined) refuse(foundBy(one.file, path));
  }
};

/** The path, as it is written, that led to a file: capitals and accents may differ. */
const foundBy = (file: AskedFile, path: string): string =>
  file.kept === null || folded(file.path) === folded(path) ? askedPath(file) : keptPath(file);
