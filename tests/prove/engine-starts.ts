import { readFile } from 'node:fs/promises';
import { sha256 } from '../../src/files/digest.ts';
import { DiskFiles } from '../../src/files/disk-files.ts';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { readSoundFont } from '../../src/instruments/soundfont/read.ts';
import { reachedClasses } from '../../src/keep/reach.ts';
import type { ReachedStart } from '../../src/keep/reacher.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { playCue } from '../../src/playback/play-cue.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { routedWhole } from '../playback/whole-cue.ts';

/** Voices by `channel,key,velocity`, channels from 0. */
export type Starts = Map<string, number>;

const banks = new Map<string, Promise<Instrument>>();

const bankAt = (path: string): Promise<Instrument> => {
  let bank = banks.get(path);
  if (bank === undefined) {
    bank = readSoundFont(new DiskFiles(), path, null, (parts) => sha256(...parts));
    banks.set(path, bank);
  }
  return bank;
};

const startsOf = async (
  cuePath: string,
  bankPath: string,
  counts: (start: ReachedStart) => boolean,
): Promise<Starts> => {
  const instrument = await bankAt(bankPath);
  const score = readMidi(await readFile(cuePath), cuePath);
  const cue = { cue: 'cue', path: cuePath, sha256: '', version: null, file: 0 };
  const parts = partsOf(score);
  const routed = routedWhole(instrument, score, parts);
  const instruments = new Map([[instrument.id, instrument]]);
  const usage = playCue(cue, score, parts, routed, instruments, asExported);
  const found: Starts = new Map();
  for (const { class: one, starts } of reachedClasses(instrument, [usage])) {
    const voices = starts.filter(counts).length * one.count;
    if (voices === 0) continue;
    const name = `${String(one.channel)},${String(one.key)},${String(one.velocity)}`;
    found.set(name, (found.get(name) ?? 0) + voices);
  }
  return found;
};

/** What the engine starts by the plain reading. */
export const plainStarts = (cuePath: string, bankPath: string): Promise<Starts> =>
  startsOf(cuePath, bankPath, ({ doubts }) => doubts[0] === 0);

/** What it starts by the plain reading or through any doubt. */
export const unionStarts = (cuePath: string, bankPath: string): Promise<Starts> =>
  startsOf(cuePath, bankPath, () => true);
