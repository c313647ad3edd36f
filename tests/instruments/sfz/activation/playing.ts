import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../../src/files/memory-files.ts';
import type { Instrument } from '../../../../src/instruments/instrument.ts';
import { readSfz } from '../../../../src/instruments/sfz/read.ts';
import { reachedClasses } from '../../../../src/keep/reach.ts';
import { partsOf } from '../../../../src/midi/parts.ts';
import { asExported } from '../../../../src/playback/play-copy.ts';
import { playCue } from '../../../../src/playback/play-cue.ts';
import { namesOf, union, type DoubtName, type DoubtSet } from '../../../../src/terms/doubt.ts';
import { routedWhole } from '../../../playback/whole-cue.ts';
import { eventsOf, scoreOf, type PlayedEvent } from './steps.ts';

/** Minimal doubt sets, as names; [[]]: plainly, []: not at all. */
export type Doubts = readonly (readonly DoubtName[])[];

/** What one event starts: for each region, by number, the doubts under which it does. */
export interface Played {
  /** Starts that are heard. */
  readonly starts: readonly Doubts[];
  /** Starts without a sound that may stop another region. */
  readonly silent: readonly Doubts[];
}

/** Reads an SFZ file that lies in memory beside `files`; samples need not be there. */
export const read = (
  sfz: string,
  files: Readonly<Record<string, Uint8Array | string>> = {},
): Promise<Instrument> =>
  readSfz(new MemoryFiles({ ...files, 'x.sfz': sfz }), 'x.sfz', () => 'digest');

/** Plays events and says, event by event, which regions start there. */
export const play = async (
  sfz: string,
  events: readonly PlayedEvent[],
  files: Readonly<Record<string, Uint8Array | string>> = {},
): Promise<readonly Played[]> => {
  const instrument = await read(sfz, files);
  const { score, stepOf } = scoreOf(events);
  const parts = partsOf(score);
  const cue = { cue: '1m1', path: '1m1.mid', sha256: '1m1', version: null, file: 0 };
  const routed = routedWhole(instrument, score, parts);
  const instruments = new Map([[instrument.id, instrument]]);
  const usage = playCue(cue, score, parts, routed, instruments, asExported);
  const regions = 1 + Math.max(-1, ...instrument.zones.map(({ id }) => id));
  const empty = (): (readonly DoubtSet[])[] => new Array<readonly DoubtSet[]>(regions).fill([]);
  const played = events.map(() => ({ starts: empty(), silent: empty() }));
  for (const { class: one, starts, silent } of reachedClasses(instrument, [usage])) {
    if (starts.length + silent.length === 0) continue;
    // Of more than three events alike only the first are known: a row must do with fewer.
    expect(one.count, `events alike: ${JSON.stringify(one)}`).toBe(one.witnesses.length);
    for (const [, , event] of one.witnesses) {
      const at = played[stepOf[event]!]!;
      for (const kind of ['starts', 'silent'] as const) {
        for (const { start, doubts } of kind === 'starts' ? starts : silent) {
          const region = instrument.zones[start.zone]!.id;
          at[kind][region] = union(at[kind][region]!, doubts);
        }
      }
    }
  }
  const named = (sets: readonly DoubtSet[]): Doubts => sets.map(namesOf);
  return played.map(({ starts, silent }) => ({
    starts: starts.map(named),
    silent: silent.map(named),
  }));
};

/** A row of a table: an instrument, and a cue with what each step must start. */
export interface Row {
  readonly what: string;
  /** Where the expectation comes from. */
  readonly from: string;
  readonly sfz: string;
  /**
   * Steps ({@link eventsOf}), each with the regions that start there behind an arrow; without one
   * nothing starts. `0`: plainly. `0?`: in the reading of another engine. `0[tail|order+engine]`:
   * under these sets of doubts. `~0`: without a sound, to stop others.
   */
  readonly steps: readonly string[];
  /** Doubts to show that rows are not about otherwise. */
  readonly show?: readonly DoubtName[];
}

/** Doubts about what stands before and behind the cue, which every row would show. */
const aside: readonly DoubtName[] = ['start-state', 'no-switch', 'pedal-held'];

const arrow = ' -> ';

const shown = (region: string, doubts: Doubts): readonly string[] => {
  if (doubts.length === 0) return [];
  const sets = doubts.map((names) => names.join('+'));
  if (sets.includes('')) return [region];
  return [sets.join() === 'engine' ? `${region}?` : `${region}[${sets.join('|')}]`];
};

/** Plays the steps of a row, and writes them again with what they start. */
export const follow = async ({ sfz, steps, show = [] }: Row): Promise<readonly string[]> => {
  const bare = steps.map((step) => step.split(arrow)[0]!);
  const hidden = aside.filter((name) => !show.includes(name));
  const seen = (doubts: Doubts): Doubts =>
    doubts.filter((names) => !names.some((name) => hidden.includes(name)));
  const played = await play(sfz, eventsOf(bare));
  return played.map(({ starts, silent }, i) => {
    // Beside a start that is heard, a silent one under the same doubts or more says nothing.
    const alone = silent.map((doubts, region) =>
      doubts.filter((set) => !starts[region]!.some((heard) => heard.every((d) => set.includes(d)))),
    );
    const regions = [
      ...starts.flatMap((doubts, region) => shown(String(region), seen(doubts))),
      ...alone.flatMap((doubts, region) => shown(`~${String(region)}`, seen(doubts))),
    ];
    return regions.length === 0 ? bare[i]! : bare[i]! + arrow + regions.join(' ');
  });
};

/** A test for each row of a table. */
export const checkRows = (rows: readonly Row[]): void => {
  const named = rows.map((row) => [`${row.what} (${row.from})`, row] as const);
  test.each(named)('%s', async (_, row) => {
    expect(await follow(row)).toEqual(row.steps);
  });
};

/** Regions that play a sample and have these opcodes. */
export const regions = (...opcodes: readonly string[]): string =>
  opcodes.map((some) => `<region> sample=a.wav ${some}\n`).join('');

/** A test file of the first open engine; its cases were run. */
export const sfizz = (file: string): string => `${file}, sfizz 1.2.3 (BSD-2) 342cd99`;

/** A case of the public-domain suite; its comment says what is expected. */
export const suite = (test: string): string => `sfz/tests (public domain) a94cbf8, ${test}`;

/** Tried on two open engines. */
export const probed = 'probed on sfizz 1.2.3 and liquidsfz 0.4.1 (MPL-2.0) da84faf';

/** Pages of the open documentation of the format. */
export const documented = 'the open SFZ documentation (CC0) 599c8c9';
