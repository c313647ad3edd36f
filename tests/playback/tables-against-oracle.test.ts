import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { zoneTable } from '../../src/instruments/zone-table/read.ts';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { reachedClasses, zoneDoubts } from '../../src/keep/reach.ts';
import { minimal, namesOf, union, type DoubtSet } from '../../src/terms/doubt.ts';
import { reachedWithHeadroom } from '../oracle/headroom.ts';
import { reachedByAll, type TableCopy, type TableEvent, type TableRow } from '../oracle/tables.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { usageOf } from './hand-made.ts';

/**
 * Instruments described by tables, through the whole way from their text to the doubt sets of their
 * zones, against a naive model written from the rules by someone who had not seen the engine: each
 * track a copy of its own, keyswitches, several cues, slack and headroom.
 */
const switches = [24, 25, 26];
const range = (lo: number, hi: number) =>
  fc
    .tuple(fc.integer({ min: lo, max: hi }), fc.integer({ min: lo, max: hi }))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

const articulations = ['long', 'short', 'roll'];
/** At least two articulations with a switch: with one there would be nothing to choose. */
const rows = fc
  .array(
    fc.record({
      of: fc.nat(3),
      // Now and then a switch is in the range of a zone, and both switches and plays.
      keys: fc.oneof({ weight: 3, arbitrary: range(58, 66) }, range(23, 27)),
      velocities: range(1, 127),
      release: fc.boolean(),
    }),
    { maxLength: 6 },
  )
  .map((some): readonly TableRow[] =>
    [
      { of: 0, keys: [60, 62] as const, velocities: [1, 127] as const, release: false },
      { of: 1, keys: [60, 64] as const, velocities: [40, 90] as const, release: false },
      ...some,
    ].map(({ of, ...row }) => ({
      articulation: articulations[of] ?? null,
      switchKey: of < 3 ? switches[of]! : null,
      ...row,
    })),
  );

const tableOf = (some: readonly TableRow[]): Instrument => {
  const lines = some.map(
    ({ articulation, switchKey, keys, velocities, release }, i) =>
      `${articulation ?? ''},${switchKey === null ? '' : String(switchKey)},${keys.join('-')},${velocities.join('-')},${release === true ? 'yes' : ''},1000,row ${String(i)}`,
  );
  const text = ['articulation,switch,keys,velocities,release,bytes,key', ...lines].join('\n');
  return zoneTable(new TextEncoder().encode(text), 'table.csv', 4, () => 'digest');
};

/** One tick is a 960th of a second. */
const seconds = (tick: number): number => tick / 960;

const event = fc.record({
  // Few moments, so that many events share one, or stand within the slack of each other.
  tick: fc.nat(12).map((moment) => moment * 17),
  key: fc.oneof(fc.constantFrom(...switches), fc.integer({ min: 57, max: 67 })),
  velocity: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 127 }), fc.constant(64)),
  on: fc.boolean(),
});
const cue = fc.array(event, { maxLength: 14 }).map((some): readonly TableEvent[] =>
  some
    .sort((a, b) => a.tick - b.tick)
    .map(({ tick, key, velocity, on }) => ({
      tick,
      seconds: seconds(tick),
      kind: on ? 'note-on' : 'note-off',
      key,
      velocity,
    })),
);
const copy: fc.Arbitrary<TableCopy> = fc.array(cue, { minLength: 1, maxLength: 2 });

const played = (events: readonly TableEvent[]): readonly OracleEvent[] =>
  events.map(({ tick, kind, key, velocity }) =>
    kind === 'note-on'
      ? { tick, kind, channel: 0, key, velocity }
      : { tick, kind, channel: 0, key },
  );

const words = (sets: readonly DoubtSet[]): readonly string[] =>
  sets.map((set) => [...namesOf(set)].sort().join(' ')).sort();
const wordsOf = (sets: readonly (readonly string[])[]): readonly string[] =>
  sets.map((set) => set.join(' ')).sort();

describe('tables', () => {
  test.each([0, 0.0211])('reach what the naive model reaches, with a slack of %f s', (slack) => {
    fc.assert(
      fc.property(rows, copy, (some, cues) => {
        const instrument = tableOf(some);
        const files = cues.map((events, i) =>
          usageOf(instrument, played(events), `1m${String(i)}`, undefined, {
            slack,
            controllerRoom: 0,
          }),
        );
        const expected = reachedByAll(some, [cues], slack).map((sets) =>
          // What pedals and cue ends hold on is not in the naive model.
          wordsOf(sets.filter((set) => !set.includes('pedal-held'))),
        );
        const found = zoneDoubts(instrument, files).map((sets) =>
          words(sets.filter((set) => !namesOf(set).includes('pedal-held'))),
        );
        expect(found).toEqual(expected);
      }),
      { seed: 11, numRuns: 400 },
    );
  });

  test('reach with headroom what the naive model does', () => {
    fc.assert(
      fc.property(rows, copy, fc.nat(3), fc.nat(40), (some, cues, keys, velocity) => {
        fc.pre(keys + velocity > 0);
        const instrument = tableOf(some);
        const files = cues.map((events, i) =>
          usageOf(instrument, played(events), `1m${String(i)}`),
        );
        const doubts: (readonly DoubtSet[])[] = instrument.zones.map(() => []);
        const headroom = { keys, velocity, controller: 0 };
        for (const { widened, starts } of reachedClasses(instrument, files, headroom)) {
          for (const { start, doubts: own } of [...starts, ...widened]) {
            doubts[start.zone] = union(doubts[start.zone]!, minimal(own));
          }
        }
        const expected = reachedWithHeadroom(some, [cues], 0, headroom).map(wordsOf);
        const found = doubts.map((sets) =>
          words(sets.filter((set) => !namesOf(set).includes('pedal-held'))),
        );
        expect(found).toEqual(expected);
      }),
      { seed: 12, numRuns: 300 },
    );
  });
});
