import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { chooseTemplate } from '../../src/jobs/choose-template.ts';
import { loadInstruments } from '../../src/jobs/load-instruments.ts';
import { plan } from '../../src/jobs/plan.ts';
import { playReel } from '../../src/jobs/play-reel.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { zoneDoubts } from '../../src/keep/reach.ts';
import type { FileUsage } from '../../src/playback/zone-usage.ts';
import { doubtSet, minimal } from '../../src/terms/doubt.ts';
import { lift, reelFile, strike, turn, type Placed, type ReelPiece } from './reel-file.ts';
import { runs } from '../runs.ts';

/** A reel in one file, split at its markers, against the same file as one cue and each cue alone. */
const table = `articulation,switch,keys,velocities,controllers,release,bytes
long,24,58-66,1-127,1:0-63,,1000
long,24,58-66,1-127,1:50-127,,2000
long,24,58-66,1-127,,yes,4000
short,25,58-62,1-64,,,8000
short,25,58-62,65-127,,,16000
short,25,63-66,1-127,11:64-127,,32000
roll,26,60-60,1-127,,,64000
,,60-62,100-127,,yes,128000
`;

const template = `
cues: cues/*.mid
instruments: { band: { zones: band.csv, middle-c: C4 } }
routes:
  - { track: "Vln*", instrument: band }
`;

const event = fc.oneof(
  { weight: 4, arbitrary: fc.tuple(fc.constant('note'), fc.integer({ min: 57, max: 67 })) },
  { weight: 2, arbitrary: fc.tuple(fc.constant('note'), fc.constantFrom(24, 25, 26)) },
  { weight: 2, arbitrary: fc.tuple(fc.constant('modulation'), fc.nat(127)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('expression'), fc.nat(127)) },
  { weight: 1, arbitrary: fc.tuple(fc.constant('sustain'), fc.constantFrom(0, 127)) },
);

const length = 960;

/** @param overlap ticks by which notes may last beyond their cue; 0: they end before it does */
const events = (from: number, overlap: number) =>
  fc
    .array(
      fc.record({
        tick: fc.integer({ min: from, max: length - 2 }),
        lasts: fc.integer({ min: 1, max: 300 }),
        velocity: fc.integer({ min: 1, max: 127 }),
        event,
      }),
      { maxLength: 8 },
    )
    .map((some): readonly Placed[] =>
      some.flatMap(({ tick, lasts, velocity, event: [kind, value] }): readonly Placed[] => {
        if (kind === 'modulation') return [turn(tick, 1, value)];
        if (kind === 'expression') return [turn(tick, 11, value)];
        // The pedal stays down where it was left, and cues begin under it.
        if (kind === 'sustain') return overlap === 0 ? [] : [turn(tick, 64, value)];
        const end = Math.min(tick + lasts, overlap === 0 ? length - 1 : length + overlap);
        return [strike(tick, value, velocity), lift(end, value)];
      }),
    );

const pieces = (from: number, overlap: number, opening: readonly Placed[] = []) =>
  fc
    .array(fc.tuple(events(from, overlap), events(from, overlap)), { minLength: 2, maxLength: 4 })
    .map((cues): readonly ReelPiece[] =>
      cues.map(([one, two], i) => ({
        marker: `1m${String(i + 1)}`,
        length,
        tracks: { 'Vln 1': [...opening, ...one], 'Vln 2': [...opening, ...two] },
      })),
    );

const filesOf = (cues: Readonly<Record<string, Uint8Array>>): MemoryFiles =>
  new MemoryFiles({ 'keepset.yaml': template, 'band.csv': table, ...cues });

const planned = (bytes: Uint8Array, split: 'markers' | null): Promise<Plan> =>
  plan({ template: 'keepset.yaml', files: filesOf({ 'cues/Reel.mid': bytes }), split });

const reached = ({ instruments }: Plan) =>
  instruments.map(({ kept, dropped, bytes, copies, articulations }) => ({
    kept: kept.map(({ zone, reasons, doubts, notes }) => ({ zone, reasons, doubts, notes })),
    dropped: dropped.map(({ zone }) => zone),
    bytes,
    copies: copies.map(({ name, notes }) => `${name} ${String(notes)}`).sort(),
    articulations: articulations.map(({ name, notes, keys, velocities }) => ({
      ...{ name, notes, keys, velocities },
    })),
  }));

const byCue = (plans: Plan, zone: number): number =>
  plans.instruments
    .flatMap(({ kept }) => kept)
    .filter((one) => one.zone === zone)
    .flatMap(({ cues }) => Object.values(cues))
    .reduce((sum, notes) => sum + notes, 0);

describe('whatever lies across the markers', () => {
  test('split or not, the same zones are kept for the same reasons; notes add up', async () => {
    await fc.assert(
      fc.asyncProperty(pieces(0, 200), async (reel) => {
        const bytes = reelFile(reel);
        const [whole, split] = [await planned(bytes, null), await planned(bytes, 'markers')];
        expect(reached(split)).toEqual(reached(whole));
        expect(split.doubts).toEqual(whole.doubts);
        expect(split.cues.map(({ id }) => id)).toEqual(reel.map(({ marker }) => marker));
        const notes = split.cues.reduce((sum, cue) => sum + cue.notes, 0);
        expect(notes).toBe(whole.cues[0]!.notes);
        expect(split.cues.reduce((sum, cue) => sum + cue.seconds, 0)).toBeCloseTo(
          whole.cues[0]!.seconds,
          6,
        );
        for (const { zone } of whole.instruments[0]!.kept) {
          expect(byCue(split, zone)).toBe(byCue(whole, zone));
        }
      }),
      { numRuns: runs(40) },
    );
  }, 180_000);

  test('each proof lies in its cue', async () => {
    await fc.assert(
      fc.asyncProperty(pieces(0, 200), async (reel) => {
        const { instruments } = await planned(reelFile(reel), 'markers');
        const proofs = instruments.flatMap(({ kept }) => kept.flatMap((one) => one.witnesses));
        for (const { cue, tick } of proofs) {
          const begin = length * reel.findIndex(({ marker }) => marker === cue);
          expect(tick).toBeGreaterThanOrEqual(begin);
          // What ends on the marker ends what the cue before has played.
          const isLast = cue === reel.at(-1)!.marker;
          expect(tick).toBeLessThanOrEqual(isLast ? Infinity : begin + length);
        }
      }),
      { numRuns: runs(40) },
    );
  }, 180_000);
});

/** Everything a table asks for, set twice, so that nothing of the cue before is remembered. */
const opening: readonly Placed[] = [
  strike(0, 24),
  lift(1, 24),
  ...[0, 1].flatMap((tick) => [turn(tick, 1, 40), turn(tick, 11, 100), turn(tick, 64, 0)]),
];

const playedOf = async (
  cues: Readonly<Record<string, Uint8Array>>,
  split: 'markers' | null,
): Promise<readonly (readonly (readonly number[])[])[]> => {
  const disk = filesOf(cues);
  const { template: read, files } = await chooseTemplate(disk, { template: 'keepset.yaml' });
  const instruments = await loadInstruments(files, read);
  const { usage } = await playReel(files, read, instruments, {
    ...{ cues: [], without: [], newest: false, acceptPartial: [], split, isPartial: false },
  });
  return usage.map((one: FileUsage) => zoneDoubts(instruments.get('band')!, [one]));
};

test('where everything is set anew, a cue reaches what it reaches alone', async () => {
  /** A tail hears the cue that follows: that is what being in one file means. */
  const tail = doubtSet('tail');
  const withoutTail = (zones: readonly (readonly number[])[]) =>
    zones.map((sets) => minimal(sets.filter((set) => (set & tail) === 0)));
  await fc.assert(
    fc.asyncProperty(pieces(10, 0, opening), async (reel) => {
      const split = await playedOf({ 'cues/Reel.mid': reelFile(reel) }, 'markers');
      const alone = await playedOf(
        Object.fromEntries(reel.map((one) => [`cues/${one.marker}.mid`, reelFile([one])])),
        null,
      );
      expect(split.map(withoutTail)).toEqual(alone.map(withoutTail));
    }),
    { numRuns: runs(40) },
  );
}, 180_000);
