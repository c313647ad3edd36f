import { readBankFile } from '../../instruments/soundfont/bank-file.ts';
import { readHydra } from '../../instruments/soundfont/hydra.ts';
import { RangeReader } from '../../instruments/soundfont/range-reader.ts';
import { checkRom, pointsOf } from '../../instruments/soundfont/samples.ts';
import { inputError } from '../../terms/errors.ts';
import type { Files } from '../../terms/files.ts';
import { bytesOf, type OutputFile } from '../output-file.ts';
import type { Trimmed } from '../trimmed.ts';
import type { TrimSet } from '../trim-set.ts';
import { infoPieces } from './info-pieces.ts';
import { shiftAt } from './intervals.ts';
import { keptBank } from './kept-bank.ts';
import { keptSound } from './kept-sound.ts';
import { formPieces, joinedPieces } from './riff-pieces.ts';
import { soundPieces } from './sound-pieces.ts';
import { writeLists } from './write-lists.ts';
import { zonePlaces } from './zone-places.ts';

/** A RIFF file's own size is a 32-bit number that leaves out the eight bytes it stands in. */
const mostBytes = 0xffff_ffff + 8;

/**
 * Plans a SoundFont bank that holds only what `keep` says (SoundFont 2.04, sections 4 to 7). The bank's
 * chunk headers and lists are read; the sound is not: it is copied by the pieces of the result.
 *
 * @param note one ASCII sentence for the bank's comment
 * @throws {InputError} `trim-nothing` when no preset leads to a sample any more, `trim-too-large` for
 *   more than 4 GiB, and whatever makes the bank unreadable
 */
export const trimBank = async (
  files: Files,
  path: string,
  keep: TrimSet,
  note: string,
): Promise<Trimmed> => {
  const reader = await RangeReader.open(files, path);
  const file = await readBankFile(reader);
  const hydra = readHydra(path, file.lists);
  checkRom(file, hydra.samples);
  const points = pointsOf(file);
  const bank = keptBank(path, hydra, keep, points);
  if (bank === null) throw inputError('trim-nothing', path, {});
  const stretches = keptSound(hydra, bank, points);
  const lists = writeLists(file, hydra, bank, shiftAt(stretches, points));
  const output: OutputFile = {
    path,
    pieces: joinedPieces(
      formPieces('RIFF', 'sfbk', [
        ...formPieces('LIST', 'INFO', await infoPieces(reader, file.info, note)),
        ...formPieces('LIST', 'sdta', soundPieces(file, reader.size, stretches)),
        ...formPieces('LIST', 'pdta', lists.pieces),
      ]),
    ),
  };
  const bytes = bytesOf(output);
  if (bytes > mostBytes) throw inputError('trim-too-large', path, { bytes });
  return {
    files: [output],
    ...zonePlaces(lists.instrumentZones, keep.loaded, bank.sampleOf),
    bytesBefore: reader.size,
    findings: [],
  };
};
