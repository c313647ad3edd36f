import { inputError } from '../terms/errors.ts';
import { chunkIdAt } from './bytes.ts';
import { midiChunk } from './chunks.ts';
import type { Score } from './score.ts';
import { ScoreReader } from './score-reader.ts';

/**
 * Reads a Standard MIDI File ("Standard MIDI Files 1.0", RP-001) of any format, also inside a RIFF
 * file (RMID).
 *
 * Files of strangers are read as far as they can be: what is odd becomes a finding, what can't be
 * read becomes {@link Track.damage} or {@link Score.missingTracks}, never silence. Time and memory
 * are bounded by the size of the file.
 *
 * @param bytes the whole file; not kept, not changed
 * @param file its path as the user named it, for the findings
 * @throws {InputError} `midi-empty`, `midi-not-a-midi-file`, `midi-header-cut` (the file ends inside
 *   its header), `midi-division-zero`
 */
export const readMidi = (bytes: Uint8Array, file: string): Score => {
  if (bytes.length === 0) throw inputError('midi-empty', file, {});
  const smf = midiChunk(bytes);
  if (smf === null) {
    throw inputError('midi-not-a-midi-file', file, { begins: chunkIdAt(bytes, 0) }, { byte: 0 });
  }
  return new ScoreReader(bytes, file).read(smf);
};
