import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { readSfz } from '../../../src/instruments/sfz/read.ts';
import { plan, type PlanOptions } from '../../../src/jobs/plan.ts';
import type { KeptZone, Plan } from '../../../src/keep/plan.ts';
import { trimSetOf } from '../../../src/trim/keep-trim-set.ts';
import type { Trimmed } from '../../../src/trim/trimmed.ts';
import { randomReel, randomSfz } from '../../oracle/sfz-random.ts';
import { fmt, riff, wave, zeros } from '../../samples/writers.ts';
import { cueBytes } from './cue-bytes.ts';
import { randomLayout } from './random-text.ts';
import { trim, type Contents } from './trimming.ts';

const reels = randomReel().map((reel): Contents =>
  Object.fromEntries(reel.map((cue, i) => [`cues/1m${String(i + 1)}.mid`, cueBytes(cue)])),
);

const instruments = randomSfz().chain((data) => randomLayout(data));

/** What a plan says of the zones it keeps, but for the numbers of articulations, and which notes it shows. */
const keptIn = ({ instruments: [one] }: Plan, numberOf = (zone: number) => zone) =>
  one!.kept
    .map((row): KeptZone => ({
      ...row,
      articulations: [],
      witnesses: [],
      zone: numberOf(row.zone),
    }))
    .sort((a, b) => a.zone - b.zone);

const mutes = ({ reasons }: KeptZone): boolean => reasons.includes('mutes');

const hasCuts = ({ program }: Instrument): boolean =>
  program.starts.some(({ event }) => event === 'cut');

interface Plans {
  readonly full: Plan;
  readonly trimmed: Trimmed;
  /** What the full plan keeps, by the numbers of the smaller instrument. */
  readonly before: readonly KeptZone[];
  readonly after: readonly KeptZone[];
}

/** Plans an instrument, trims it by that, and plans what came out. */
const plansOf = async (
  instrument: Contents,
  reel: Contents,
  options: PlanOptions = {},
): Promise<Plans> => {
  const contents = { ...instrument, ...reel, 'a.wav': wave(fmt(), riff('data', zeros(200))) };
  const planned = (all: Contents): Promise<Plan> =>
    plan({ cues: ['cues'], instrument: 'kit.sfz', files: new MemoryFiles(all), ...options });
  const full = await planned(contents);
  const read = await readSfz(new MemoryFiles(contents), 'kit.sfz', () => '');
  const { trimmed, bytes } = await trim(contents, trimSetOf(full.instruments[0]!, read));
  const small = await planned({ ...bytes, ...reel });
  const before = keptIn(full, (zone) => trimmed.zones.get(zone)!);
  const after = keptIn(small);
  const readAgain = await readSfz(new MemoryFiles({ ...contents, ...bytes }), 'kit.sfz', () => '');
  if (!hasCuts(read) || hasCuts(readAgain)) return { full, trimmed, before, after };
  // Releases that engines may play when a voice is cut: no region that stays can be cut.
  const doubted = new Set(
    before.flatMap(({ zone, reasons }) => (reasons.includes('engine') ? [zone] : [])),
  );
  const others = (rows: readonly KeptZone[]): readonly KeptZone[] =>
    rows.filter(({ zone }) => !doubted.has(zone));
  return { full, trimmed, before: others(before), after: others(after) };
};

const numRuns = Number(process.env['RUNS'] ?? 25);

/** Failures are shown as they are: looking for a smaller one takes minutes. */
const runs = { numRuns, endOnFailure: true };

test('the score finds the same in the smaller instrument, note for note', async () => {
  const seen = { dropped: 0, kept: 0, stubs: 0, doubts: 0 };
  await fc.assert(
    fc.asyncProperty(instruments, reels, async (instrument, reel) => {
      // Whether a copy chose any switch at all is told by the switches that some region still reads.
      const settled = { settle: { 'no-switch': 'plain' } } as const;
      const { full, trimmed, before, after } = await plansOf(instrument, reel, settled);
      const sounding = (rows: readonly KeptZone[]): readonly KeptZone[] =>
        rows.filter((row) => !mutes(row));
      expect(sounding(after)).toEqual(sounding(before));
      // What only stops others may find nobody left to stop.
      const known = before.map(({ zone }) => zone);
      for (const { zone } of after.filter(mutes)) expect(known).toContain(zone);
      seen.kept += before.length;
      seen.dropped += full.instruments[0]!.dropped.length;
      seen.stubs += trimmed.places.length;
      seen.doubts += before.filter(({ doubts }) => doubts.flat().length > 0).length;
    }),
    runs,
  );
  // How often depends on what chance made: each must have come up.
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(0);
});

test('and with all doubts open it keeps all it has', async () => {
  await fc.assert(
    fc.asyncProperty(instruments, reels, async (instrument, reel) => {
      const { before, after } = await plansOf(instrument, reel);
      const zones = (rows: readonly KeptZone[]): readonly number[] =>
        rows.filter((row) => !mutes(row)).map(({ zone }) => zone);
      expect(zones(after)).toEqual(zones(before));
      const played = (rows: readonly KeptZone[]): readonly number[] =>
        rows.filter(({ reasons }) => reasons.includes('played')).map(({ zone }) => zone);
      expect(played(after)).toEqual(played(before));
    }),
    runs,
  );
});
