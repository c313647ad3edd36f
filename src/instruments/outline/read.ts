import type { Files } from '../../terms/files.ts';
import type { Instrument } from '../instrument.ts';
import { outlineInstrument } from './outline-instrument.ts';
import { largestOutline, parseOutline } from './reading/parse-outline.ts';

/**
 * Reads an outline as an instrument.
 *
 * @param digest the sha256 of parts laid end to end, in hex
 * @throws {InputError} what `files.read` and {@link parseOutline} throw, or when it stands for too many
 *   zones
 */
export const readOutline = async (
  files: Files,
  path: string,
  digest: (parts: readonly Uint8Array[]) => string,
): Promise<Instrument> => {
  // One byte more than can be read shows that there are too many.
  const bytes = await files.read(path, 0, largestOutline + 1);
  const { outline, findings } = parseOutline(path, bytes);
  const sha256 = digest([new TextEncoder().encode('outline\n'), bytes]);
  return outlineInstrument(outline, sha256, findings);
};
