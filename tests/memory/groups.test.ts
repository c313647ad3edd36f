import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadingGroups, type GroupCosts } from '../../src/memory/groups/loading-groups.ts';

/** Groups as runs, from their ends. */
const runsOf = (ends: readonly number[]): readonly (readonly [number, number])[] =>
  ends.map((end, g) => [g === 0 ? 0 : ends[g - 1]! + 1, end]);

const bytesOf = (ends: readonly number[], { change }: GroupCosts): number =>
  runsOf(ends)
    .slice(1)
    .reduce((sum, [, to], g) => sum + change(...runsOf(ends)[g]!, to), 0);

/** By the definition alone: every way to put borders, ordered by number, bytes and ends. */
const bruteForce = (costs: GroupCosts): readonly number[] => {
  const last = costs.cues - 1;
  const ways = Array.from({ length: 2 ** last }, (_, bits) => [
    ...Array.from({ length: last }, (__, cue) => cue).filter((cue) => (bits >> cue) & 1),
    last,
  ]).filter((ends) => runsOf(ends).every(([from, to]) => from === to || costs.fits(from, to)));
  const compare = (a: readonly number[], b: readonly number[]): number => {
    const byBytes = a.length - b.length || bytesOf(a, costs) - bytesOf(b, costs);
    const differs = a.findIndex((end, g) => end !== b[g]);
    return byBytes || (differs < 0 ? 0 : a[differs]! - b[differs]!);
  };
  return ways.sort(compare)[0]!;
};

/** Calls, by what was asked for. */
const counted = (costs: GroupCosts) => {
  const fits = new Map<string, number>();
  const change = new Map<string, number>();
  const count = (calls: Map<string, number>, of: readonly number[]): void => {
    calls.set(of.join(' '), (calls.get(of.join(' ')) ?? 0) + 1);
  };
  return {
    fits,
    change,
    costs: {
      cues: costs.cues,
      fits: (...of: [number, number]) => (count(fits, of), costs.fits(...of)),
      change: (...of: [number, number, number]) => (count(change, of), costs.change(...of)),
    },
  };
};

const most = 9;

/** Costs are looked up by cue numbers; few different ones, so that many ways cost the same. */
const changes = fc
  .constantFrom(0, 1, 2, 100)
  .chain((dearest) => fc.array(fc.nat(dearest), { minLength: most ** 3, maxLength: most ** 3 }))
  .map(
    (table): GroupCosts['change'] =>
      (from, to, next) =>
        table[(from * most + to) * most + next]!,
  );

/** Any run may fit or not, whatever its parts do. */
const anyFits = fc.array(fc.boolean(), { minLength: most ** 2, maxLength: most ** 2 }).map(
  (table): GroupCosts['fits'] =>
    (from, to) =>
      table[from * most + to]!,
);

/** Sizes that add up against a budget: parts of what fits fit. */
const sizedFits = fc
  .record({
    sizes: fc.array(fc.nat(9), { minLength: most, maxLength: most }),
    budget: fc.nat(30),
  })
  .map(
    ({ sizes, budget }): GroupCosts['fits'] =>
      (from, to) =>
        sizes.slice(from, to + 1).reduce((a, b) => a + b) <= budget,
  );

const allCosts: fc.Arbitrary<GroupCosts> = fc.record({
  cues: fc.integer({ min: 1, max: most }),
  fits: fc.oneof(anyFits, sizedFits),
  change: changes,
});

test('as good as the best of all ways', () => {
  fc.assert(
    fc.property(allCosts, (costs) => {
      expect(loadingGroups(costs)).toEqual(bruteForce(costs));
    }),
    { numRuns: 3_000 },
  );
});

test('nothing is asked twice, and of changes only what may decide', () => {
  fc.assert(
    fc.property(allCosts, (costs) => {
      const { fits, change, costs: asked } = counted(costs);
      const number = loadingGroups(asked).length;
      expect([...fits.values(), ...change.values()].every((times) => times === 1)).toBe(true);
      for (const run of fits.keys()) {
        const [from, to] = run.split(' ').map(Number) as [number, number];
        expect(0 <= from && from < to && to < costs.cues).toBe(true);
      }
      /** Fewest groups for the cues from one on, up to and with another. */
      const fewest = (from: number, to: number): number =>
        to < from
          ? 0
          : bruteForce({
              cues: to - from + 1,
              fits: (a, b) => costs.fits(from + a, from + b),
              change: () => 0,
            }).length;
      for (const pair of change.keys()) {
        const [from, to, next] = pair.split(' ').map(Number) as [number, number, number];
        expect(from === to || costs.fits(from, to)).toBe(true);
        expect(to + 1 === next || costs.fits(to + 1, next)).toBe(true);
        expect(fewest(0, from - 1) + 2 + fewest(next + 1, costs.cues - 1)).toBe(number);
      }
    }),
    { numRuns: 500 },
  );
});

describe('by hand', () => {
  const none = (): number => {
    throw new Error('no change was to be looked at');
  };

  test('no cues, one cue', () => {
    const fits = none as unknown as GroupCosts['fits'];
    expect(loadingGroups({ cues: 0, fits, change: none })).toEqual([]);
    expect(loadingGroups({ cues: 1, fits, change: none })).toEqual([0]);
  });

  test('all fits at once: asked once', () => {
    const { fits, costs } = counted({ cues: 50, fits: () => true, change: none });
    expect(loadingGroups(costs)).toEqual([49]);
    expect(fits.size).toBe(1);
  });

  test('nothing fits with anything: each alone', () => {
    const costs = { cues: 4, fits: () => false, change: () => 5 };
    expect(loadingGroups(costs)).toEqual([0, 1, 2, 3]);
  });

  test('of equals, the first group ends first', () => {
    // Five cues, three at most together: ends 1 or 2, then 4. All changes cost the same.
    const costs = { cues: 5, fits: (from: number, to: number) => to - from < 3, change: () => 7 };
    expect(loadingGroups(costs)).toEqual([1, 4]);
    // Unless that costs more.
    const change = (_: number, to: number): number => (to === 1 ? 8 : 7);
    expect(loadingGroups({ ...costs, change })).toEqual([2, 4]);
  });

  test('a run may fit though its beginning does not', () => {
    const fits = (from: number, to: number): boolean => from === 0 && to === 3;
    expect(loadingGroups({ cues: 5, fits, change: () => 0 })).toEqual([3, 4]);
  });
});

describe('of a hundred cues each run and change is asked for once', () => {
  test.each([
    ['ten at most', (from: number, to: number) => to - from < 10],
    ['a third at most', (from: number, to: number) => to - from < 49],
    ['no two', () => false],
    ['all but all', (from: number, to: number) => to - from < 99],
    ['every second length', (from: number, to: number) => (to - from) % 2 === 0 && to - from < 30],
  ])('%s', (_, fits) => {
    for (const cues of [95, 99, 100]) {
      const { fits: runs, change, costs } = counted({ cues, fits, change: (a, b, c) => a ^ b ^ c });
      const ends = loadingGroups(costs);
      expect(ends.at(-1)).toBe(cues - 1);
      expect([...runs.values(), ...change.values()].every((times) => times === 1)).toBe(true);
      expect(change.size).toBeLessThan(40_000);
    }
  });
});
