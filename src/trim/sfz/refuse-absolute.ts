import { askedPath, type RegionSample } from '../../instruments/sfz/samples/region-samples.ts';
import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import { withSlashes } from '../../instruments/sfz/text/paths.ts';
import { inputError } from '../../terms/errors.ts';
import { isAbsolute } from '../paths.ts';
import type { TrimSet } from '../trim-set.ts';

/**
 * What an instrument names by its whole path stays where it is: a copy beside the smaller instrument
 * would never be looked at, and the smaller one would go on reading the full one's files.
 *
 * @throws {InputError} `trim-path`
 */
export const refuseAbsolute = (
  { files, inclusions }: SfzDocument,
  samples: readonly RegionSample[],
  { loaded }: TrimSet,
): void => {
  const root = files[0]!.path;
  const refuse = (path: string): void => {
    if (isAbsolute(path)) throw inputError('trim-path', root, { path, reason: 'absolute' });
  };
  for (const { place, written } of inclusions) {
    if (place !== null) refuse(withSlashes(written));
  }
  samples.forEach((one, number) => {
    if (one.kind === 'file' && loaded.has(number)) refuse(askedPath(one.file));
  });
};
