import fc from 'fast-check';
import type { Plan, PlanInstrument } from '../../src/keep/plan.ts';
import { plan } from '../../src/jobs/plan.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { cueBytes, type CueTrack } from '../jobs/midi-cue.ts';

/** Small reels for a template of three instruments, of which two are of one table. */

/** Bytes of a sample by its name, in any table. */
export const sampleBytes: Readonly<Record<string, number>> = {
  's0.wav': 1_000,
  's1.wav': 2_000,
  's2.wav': 4_000,
  's3.wav': 8_000,
  's4.wav': 16_000,
  's5.wav': 32_000,
};
export const perZone = 100;
export const perCopy = 500_000;

const row = fc.record({
  low: fc.integer({ min: 58, max: 66 }),
  width: fc.integer({ min: 0, max: 4 }),
  layer: fc.constantFrom('1-127', '1-64', '65-127'),
  articulation: fc.constantFrom('long', 'short'),
  sample: fc.constantFrom(...Object.keys(sampleBytes)),
});

export const table: fc.Arbitrary<string> = fc
  .array(row, { minLength: 3, maxLength: 8 })
  .map((rows) =>
    [
      'key,articulation,keys,velocities,sample,bytes',
      ...rows.map(({ low, width, layer, articulation, sample }, i) =>
        [
          `z${String(i)}`,
          articulation,
          `${String(low)}-${String(low + width)}`,
          layer,
          sample,
          String(sampleBytes[sample]),
        ].join(','),
      ),
      '',
    ].join('\n'),
  );

export interface Rig {
  readonly tables: readonly [string, string];
  readonly shares: 'machine' | 'copy';
  readonly unloads: 'sample' | 'articulation';
  /** The machine of the instrument that is alone with its table. */
  readonly home: 'a' | 'b';
  readonly pinned: boolean;
}

export const rig: fc.Arbitrary<Rig> = fc.record({
  tables: fc.tuple(table, table),
  shares: fc.constantFrom('machine', 'copy'),
  unloads: fc.constantFrom('sample', 'articulation'),
  home: fc.constantFrom('a', 'b'),
  pinned: fc.boolean(),
});

const templateOf = ({ shares, unloads, home, pinned }: Rig): string => `
cues: cues/*.mid
machines: { a: { memory: 1 GiB }, b: { memory: 2 MiB } }
players:
  p: { loads: whole, per-zone: ${String(perZone)} B, per-copy: ${String(perCopy)} B, shares: ${shares}, unloads: ${unloads} }
instruments:
  one: { zones: one.csv, middle-c: C4, player: p, machine: a }
  twin: { zones: one.csv, middle-c: C4, player: p, machine: a }
  other: { zones: other.csv, middle-c: C4, player: p, machine: ${home} }
routes:
  - { track: 'One *', instrument: one }
  - { track: 'Twin *', instrument: twin }
  - { track: 'Other *', instrument: other }
${pinned ? 'pins: [{ instrument: other, articulation: short }]' : ''}
`;

const note = fc.record({
  tick: fc.integer({ min: 0, max: 400 }),
  length: fc.integer({ min: 1, max: 60 }),
  key: fc.integer({ min: 57, max: 71 }),
  velocity: fc.integer({ min: 1, max: 127 }),
});

/** Each track may be empty, which leaves its copy unloaded, or not be there at all. */
export const reel: fc.Arbitrary<readonly CueTrack[]> = fc
  .tuple(
    ...['One 1', 'One 2', 'Twin 1', 'Other 1', 'Other 2'].map((name) =>
      fc.option(fc.record({ name: fc.constant(name), notes: fc.array(note, { maxLength: 3 }) })),
    ),
  )
  .map((tracks) => [...tracks.filter((track) => track !== null), { name: 'Other 1', notes: [] }]);

/** The files of a rig with a reel on it. */
export const filesOf = (
  own: Rig,
  tracks: readonly CueTrack[],
): Readonly<Record<string, Uint8Array | string>> => ({
  'keepset.yaml': templateOf(own),
  'one.csv': own.tables[0],
  'other.csv': own.tables[1],
  'cues/1m1.mid': cueBytes(tracks),
});

export const planOf = (own: Rig, tracks: readonly CueTrack[]): Promise<Plan> =>
  plan({ files: new MemoryFiles(filesOf(own, tracks)) });

export const keepFile = (of: Plan): string => toJson(withMessages(of));

/**
 * The zones that each copy has loaded, by name; one entry without a name where all are alike, or where
 * one stays that no cue drives. Nothing is empty.
 *
 * @param isApart by name in any case
 */
export const statesOf = (
  instrument: PlanInstrument | undefined,
  isApart: boolean,
): ReadonlyMap<string | null, { readonly count: number; readonly zones: ReadonlySet<number> }> => {
  if (instrument === undefined || instrument.kept.length === 0) return new Map();
  const zones = new Set(instrument.kept.map(({ zone }) => zone));
  const playing = instrument.copies.filter(({ zonesKept }) => zonesKept > 0);
  if (playing.length === 0) return new Map([[null, { count: 1, zones }]]);
  return instrument.shares === 'copy' || isApart
    ? new Map(playing.map(({ name, kept }) => [name, { count: 1, zones: new Set(kept ?? zones) }]))
    : new Map([[null, { count: playing.length, zones }]]);
};
