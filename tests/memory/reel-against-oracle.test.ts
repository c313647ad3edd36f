import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanCue } from '../../src/keep/plan.ts';
import { cueStates } from '../../src/keep/reel/cue-memory.ts';
import { groupCues } from '../../src/keep/reel/group-cues.ts';
import { placement } from '../../src/keep/reel/place.ts';
import { ReelLoads, type Change, type State } from '../../src/memory/reel/reel-loads.ts';
import { bestGrouping, groupings, missing } from '../oracle/reel-groups.ts';
import {
  allCues,
  changeSeconds,
  instrumentChange,
  instrumentFigure,
  machineChange,
  machineFigure,
  type Cues,
} from '../oracle/reel-memory.ts';
import { placements } from '../oracle/reel-placement.ts';
import { reelCase, withBudgets, type ReelCase } from './random-reel.ts';
import { runs, share } from '../runs.ts';

/** Reels against the rules of a reel's memory, written down without any haste for speed. */

const withReadings = { cues: 5, instruments: 2, machines: 2, readings: 2, factors: [1, 1.3] };
/** Whole bytes throughout, so equals are equal and the choice among them can be held to the rule. */
const inWholeBytes = { ...withReadings, cues: 9, readings: 0, factors: [1, 2] };

const loadsOf = ({ members, cues }: ReelCase): ReelLoads => new ReelLoads(members, cues);

const stateOf = (loads: ReelLoads, cues: Cues): State =>
  cues.map((cue) => loads.cue(cue)).reduce((all, one) => loads.join(all, one), loads.nothing);

const stubs = (cues: number): readonly PlanCue[] =>
  Array.from({ length: cues }, (_, cue) => ({
    id: String(cue),
    files: [],
    version: null,
    parts: 0,
    notes: 0,
    seconds: 0,
    music: 0,
    lastMarker: null,
    timecode: null,
    state: 'read',
    tracks: { played: [], silent: [] },
  }));

/** Sums in another order may end on another side of half a byte: two figures are in a change. */
const expectNear = (ours: number, theirs: number, most = 1): void => {
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(most);
};

const expectChange = (ours: Change, theirs: Change): void => {
  expectNear(ours.load, theirs.load, 2);
  expectNear(ours.mayGo, theirs.mayGo, 2);
};

/** Any cues at once; a change is from one lot of cues to another. */
const someCues = (cues: number): fc.Arbitrary<number[]> =>
  fc.subarray(
    Array.from({ length: cues }, (_, cue) => cue),
    { minLength: 1 },
  );

const changing = reelCase(withReadings).chain((each) =>
  fc.tuple(fc.constant(each), fc.option(someCues(each.cues)), someCues(each.cues)),
);

describe('against the rules', () => {
  test('figures and changes, by machine and by instrument', () => {
    const seen = { read: 0, fitted: 0, computed: 0, goes: 0 };
    fc.assert(
      fc.property(changing, ([each, from, to]) => {
        const loads = loadsOf(each);
        const [before, next] = [from === null ? null : stateOf(loads, from), stateOf(loads, to)];
        each.machines.forEach(({ id }, m) => {
          const ours = loads.machine(m, next);
          const theirs = machineFigure(each.reel, id, to);
          expectNear(ours.bytes, theirs.likely);
          expectNear(ours.low, theirs.low);
          expectNear(ours.high, theirs.high);
          const change = loads.machineChange(m, before, next);
          expectChange(change, machineChange(each.reel, id, from, to));
          if (change.mayGo > 0) seen.goes++;
        });
        each.reel.instruments.forEach((one, m) => {
          const ours = loads.instrument(m, next);
          const theirs = instrumentFigure(one, to);
          expectNear(ours.bytes, theirs.likely);
          expectNear(ours.low, theirs.low);
          expectNear(ours.high, theirs.high);
          expect(ours.basis).toBe(theirs.basis);
          seen[ours.basis]++;
          expectChange(loads.instrumentChange(m, before, next), instrumentChange(one, from, to));
        });
      }),
      { numRuns: runs(250), seed: 71 },
    );
    for (const times of Object.values(seen)) expect(times).toBeGreaterThan(share(50));
  });

  test('seconds', () => {
    const seen = { unknown: 0, known: 0 };
    fc.assert(
      fc.property(changing, ([each, from, to]) => {
        const loads = loadsOf(each);
        const before = from === null ? null : stateOf(loads, from);
        const ours = loads.seconds(before, stateOf(loads, to));
        const theirs = changeSeconds(each.reel, from, to);
        expect(ours === null).toBe(theirs === null);
        if (ours === null) seen.unknown++;
        else {
          // A few bytes more or less, at a million in a second.
          expect(ours).toBeCloseTo(theirs!, 4);
          if (ours > 0) seen.known++;
        }
      }),
      { numRuns: runs(300), seed: 72 },
    );
    for (const times of Object.values(seen)) expect(times).toBeGreaterThan(share(20));
  });

  test('cues one by one', () => {
    fc.assert(
      fc.property(reelCase(inWholeBytes), (each) => {
        const loads = loadsOf(each);
        const { reel, machines } = each;
        const cues = stubs(each.cues);
        const states = cues.map((_, cue) => loads.cue(cue));
        cueStates(loads, machines, cues, states).forEach((found, cue) => {
          const from = cue === 0 ? null : [cue - 1];
          const own = machines.map(({ id }) => ({
            id,
            figure: machineFigure(reel, id, [cue]),
            change: machineChange(reel, id, from, [cue]),
          }));
          expect(found.machines).toEqual(
            own.map(({ id, figure: { likely, low, high }, change }) => ({
              ...{ id, bytes: likely, low, high, ...change, fits: null },
            })),
          );
          expect(found.load).toBe(own.reduce((sum, { change }) => sum + change.load, 0));
          expect(found.mayGo).toBe(own.reduce((sum, { change }) => sum + change.mayGo, 0));
          expect(found.bytes).toBe(own.reduce((sum, { figure }) => sum + figure.likely, 0));
        });
      }),
      { numRuns: runs(100), seed: 73 },
    );
  });
});

/** Budgets just as large as some run of cues takes, or a byte less. */
const tight = (each: fc.Arbitrary<ReelCase>): fc.Arbitrary<ReelCase> =>
  each.chain((one) =>
    fc
      .tuple(
        ...one.machines.map(() =>
          fc.record({
            cues: fc.tuple(fc.nat(one.cues - 1), fc.nat(one.cues - 1)),
            less: fc.constantFrom(0, 1),
            none: fc.nat(5).map((n) => n === 0),
          }),
        ),
      )
      .map((all) =>
        withBudgets(
          one,
          all.map(({ cues: [a, b], less, none }, m) => {
            const run = allCues(one.reel).slice(Math.min(a, b), Math.max(a, b) + 1);
            return none ? null : machineFigure(one.reel, one.machines[m]!.id, run).high - less;
          }),
        ),
      ),
  );

const grouped = (each: ReelCase) => {
  const loads = loadsOf(each);
  const cues = stubs(each.cues);
  const states = cues.map((_, cue) => loads.cue(cue));
  const found = groupCues(loads, each.machines, cues, states);
  return { found, groups: found.groups.map((group) => group.cues.map(Number)) };
};

describe('loading groups', () => {
  test('the best of all', () => {
    const seen = { several: 0, chosen: 0, alone: 0 };
    fc.assert(
      fc.property(tight(reelCase(inWholeBytes)), (each) => {
        const { found, groups } = grouped(each);
        const { reel, machines } = each;
        const best = bestGrouping(reel);
        expect({ groups, loaded: found.load }).toEqual(best);
        if (groups.length > 1) seen.several++;
        if (groupings(reel).filter((one) => one.groups.length === groups.length).length > 1) {
          seen.chosen++;
        }
        const alone = allCues(reel).flatMap((cue) =>
          Object.entries(missing(reel, [cue])).map(([machine, bytes]) => ({
            ...{ cue: String(cue), machine, missing: bytes },
          })),
        );
        expect(found.alone).toEqual(alone);
        seen.alone += alone.length;
        found.groups.forEach((group, g) => {
          const before = groups[g - 1] ?? null;
          const seconds = changeSeconds(reel, before, groups[g]!);
          expect(group.seconds === null).toBe(seconds === null);
          if (seconds !== null) expect(group.seconds).toBeCloseTo(seconds, 2);
          expect(group.machines).toEqual(
            machines.map(({ id }) => {
              const { likely, low, high, fits } = machineFigure(reel, id, groups[g]!);
              const change = machineChange(reel, id, before, groups[g]!);
              return { id, bytes: likely, low, high, ...change, fits };
            }),
          );
        });
      }),
      { numRuns: runs(150), seed: 74 },
    );
    expect(seen.several).toBeGreaterThan(share(20));
    expect(seen.chosen).toBeGreaterThan(share(10));
    expect(seen.alone).toBeGreaterThan(share(10));
  });

  test('with readings: as few, and as little to load', () => {
    fc.assert(
      fc.property(
        reelCase(withReadings),
        fc.array(fc.integer({ min: 40, max: 100 }), { minLength: 2, maxLength: 2 }),
        (plain, parts) => {
          const budgets = plain.machines.map(({ id }, m) => {
            const { high } = machineFigure(plain.reel, id, allCues(plain.reel));
            // Half a byte decides nothing where no run comes to just that.
            return Math.round((high * parts[m]!) / 100) + 3;
          });
          const each = withBudgets(plain, budgets);
          const { found, groups } = grouped(each);
          const ways = groupings(each.reel);
          const ours = ways.find((way) => JSON.stringify(way.groups) === JSON.stringify(groups));
          expect(ours?.groups.length).toBe(ways[0]!.groups.length);
          expectNear(ours!.loaded, ways[0]!.loaded, 4 * each.cues);
          expectNear(found.load, ways[0]!.loaded, 4 * each.cues);
        },
      ),
      { numRuns: runs(100), seed: 75 },
    );
  });
});

describe('placement', () => {
  /** Budgets about what is there, some too small. */
  const placing = (size: typeof inWholeBytes) =>
    reelCase(size).chain((each) =>
      fc
        .array(fc.integer({ min: 40, max: 170 }), {
          minLength: size.machines,
          maxLength: size.machines,
        })
        .map((parts) => {
          const highs = each.machines.map(
            ({ id }) => machineFigure(each.reel, id, allCues(each.reel)).high,
          );
          const mean = highs.reduce((sum, high) => sum + high, 0) / highs.length;
          return withBudgets(
            each,
            parts.map((part, m) => Math.floor((((highs[m]! + mean) / 2) * part) / 100)),
          );
        }),
    );

  test.each([
    ['4 instruments on 2 machines', { ...inWholeBytes, cues: 3 }, 12],
    ['6 on 3', { ...inWholeBytes, cues: 2, instruments: 3, machines: 3 }, 8],
    ['8 on 3', { ...inWholeBytes, cues: 1, instruments: 4, machines: 3 }, 3],
  ])('%s', async (_, size, numRuns) => {
    const met = { fits: 0, placed: 0, impossible: 0, open: 0 };
    await fc.assert(
      fc.asyncProperty(placing(size), async (each) => {
        const loads = loadsOf(each);
        const whole = stateOf(loads, allCues(each.reel));
        const found = await placement(loads, whole, each.machines);
        met[found.state]++;
        const best = placements(each.reel);
        if (best === null) {
          expect(found).toMatchObject({ state: 'impossible', moves: [] });
          return;
        }
        expect({ bytes: found.bytes, moved: found.moves.length, gap: found.gap }).toEqual({
          ...{ bytes: best.bytes, moved: best.moved, gap: 0 },
        });
        expect(found.machines.map(({ fits }) => fits)).toEqual(each.machines.map(() => true));
      }),
      { numRuns, seed: 76 },
    );
    expect(met.open).toBe(0);
    expect(met.placed).toBeGreaterThan(0);
  });
});
