import { cueFile } from './cue-file.ts';
import { harbourBank } from './harbour-bank.ts';
import { readme } from './readme.ts';
import { harbour, lampRoom, netLoft, titles } from './reel-1.ts';
import { fogSignal, lowWater, pilotBoat } from './reel-2.ts';
import { writeSoundFont } from './soundfont-writer.ts';

/** A file of the demo; `path` is relative to the demo folder, with `/`. */
export interface DemoFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/**
 * The invented score to try every command on: eight cues of a small harbour drama, the bank they
 * play, and a text that explains both. About 5 MB, the same bytes every time.
 */
export const demoFiles = (): readonly DemoFile[] => {
  const cues = [
    titles(),
    harbour(3),
    harbour(4),
    netLoft(),
    lampRoom(),
    lowWater(),
    pilotBoat(),
    fogSignal(),
  ];
  return [
    { path: 'README.txt', bytes: new TextEncoder().encode(readme) },
    ...cues.map((cue) => ({ path: `cues/${cue.title}.mid`, bytes: cueFile(cue) })),
    { path: 'instruments/harbour.sf2', bytes: writeSoundFont(harbourBank()) },
  ];
};
