import { sha256 } from '../../src/files/digest.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { readSoundFont } from '../../src/instruments/soundfont/read.ts';
import { reachedClasses } from '../../src/keep/reach.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { playCue } from '../../src/playback/play-cue.ts';

/** The functions of the engine that are held against the oracle: the real ones, or a mutant's. */
export interface Engine {
  readonly readSoundFont: typeof readSoundFont;
  readonly playCue: typeof playCue;
  readonly reachedClasses: typeof reachedClasses;
  readonly partsOf: typeof partsOf;
  readonly MemoryFiles: typeof MemoryFiles;
  readonly sha256: typeof sha256;
}

export const engine: Engine = {
  readSoundFont,
  playCue,
  reachedClasses,
  partsOf,
  MemoryFiles,
  sha256,
};
