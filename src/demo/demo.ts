import { cueFile } from './cue-file.ts';
import { harbourBank } from './harbour-bank.ts';
import { orchestraTables } from './orchestra-tables.ts';
import { orchestraTemplate } from './orchestra-template.ts';
import { orchestraTracks } from './orchestra-tracks.ts';
import { demoOutlines } from './outlines.ts';
import { readme } from './readme.ts';
import { harbour, lampRoom, netLoft, titles } from './reel-1.ts';
import { fogSignal, lowWater, pilotBoat } from './reel-2.ts';
import { sfzInstruments } from './sfz-instruments.ts';
import { sfzTemplate } from './sfz-template.ts';
import { slackWater } from './slack-water.ts';
import { writeSoundFont } from './soundfont-writer.ts';

/** A file of the demo; `path` is relative to the demo folder, with `/`. */
export interface DemoFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/**
 * The invented score to try every command on: nine cues of a small harbour drama, the bank they play,
 * SFZ instruments with their samples, a small orchestra on two machines as a template describes it,
 * with tables and outlines where there are no samples,
 * and a text that explains all that. About 16 MB, the same bytes every time.
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
    slackWater(),
  ];
  const revision = pilotBoat(true);
  const text = (path: string, content: string): DemoFile => ({
    path,
    bytes: new TextEncoder().encode(content),
  });
  return [
    text('README.txt', readme),
    text('keepset.yaml', orchestraTemplate),
    text('sfz.yaml', sfzTemplate),
    text('tracks.csv', orchestraTracks),
    ...orchestraTables().map(({ name, csv }) => text(`tables/${name}.csv`, csv)),
    ...demoOutlines().map(({ name, yaml }) => text(`outlines/${name}.yaml`, yaml)),
    ...cues.map((cue) => ({ path: `cues/${cue.title}.mid`, bytes: cueFile(cue) })),
    // Not among the cues: it is what arrives when all is planned.
    { path: `revisions/${revision.title}.mid`, bytes: cueFile(revision) },
    ...sfzInstruments().map(({ path, bytes }) => ({ path: `instruments/${path}`, bytes })),
    { path: 'instruments/harbour.sf2', bytes: writeSoundFont(harbourBank()) },
  ];
};
