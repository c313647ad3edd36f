/** Sums that fit on paper, for each rule about the memory of a reel; then what holds for any reel. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { load, type MemoryInstrument, type MemoryPlayer } from './memory.ts';
import { bestGrouping, groupings, missing } from './reel-groups.ts';
import {
  changeSeconds,
  copiesOf,
  instrumentFigure,
  join,
  machineChange,
  machineFigure,
  peak,
  reelChange,
  totalBytes,
  type Reel,
  type ReelInstrument,
  type ReelNeed,
} from './reel-memory.ts';
import { placements } from './reel-placement.ts';

const player = (more: Partial<MemoryPlayer> = {}): MemoryPlayer => ({
  id: 'p',
  head: null,
  width: null,
  perZone: 0,
  perCopy: 0,
  shares: 'copy',
  ...more,
});

/** Zones of 1, 2, 4 and 8 bytes, a sample each: every set of them has a sum of its own. */
const memory = (more: Partial<MemoryPlayer> = {}, sha256 = 'one'): MemoryInstrument => ({
  sha256,
  player: player(more),
  samples: Object.fromEntries(
    [1, 2, 4, 8].map((frames) => [
      `s${frames}`,
      { frames, channels: 1, rate: 48_000, width: 1, present: true },
    ]),
  ),
  zones: [['s1'], ['s2'], ['s4'], ['s8']],
  readings: [],
});

const apart = (...zones: number[]): ReelNeed => ({ byCopy: { A: zones } });
const together = (copies: readonly string[], ...zones: number[]): ReelNeed => ({ zones, copies });

const entry = (
  needs: readonly ReelNeed[],
  instrument: MemoryInstrument = memory(),
  id = 'i',
  machine = 'm',
): ReelInstrument => ({ id, machine, instrument, needs });

const reelOf = (budget: number | null, ...instruments: ReelInstrument[]): Reel => ({
  machines: { m: budget },
  instruments,
});

describe('needs of several cues at once', () => {
  test('copies that share: one set of zones, the names of all', () => {
    const both = join([together(['A'], 0, 1), together(['B', 'A'], 1, 2)]);
    expect(both).toEqual(together(['A', 'B'], 0, 1, 2));
    expect(copiesOf(both)).toEqual([
      [0, 1, 2],
      [0, 1, 2],
    ]);
  });

  test('copies apart: by name', () => {
    const both = join([{ byCopy: { A: [0], B: [] } }, { byCopy: { A: [0, 1], C: [2] } }]);
    expect(both).toEqual({ byCopy: { A: [0, 1], B: [], C: [2] } });
    expect(copiesOf(both)).toEqual([[0, 1], [2]]);
  });

  test('zones without a copy count one copy; a copy beside them is that one', () => {
    expect(copiesOf(together([], 3))).toEqual([[3]]);
    expect(copiesOf(join([together([], 3), together(['A'], 0)]))).toEqual([[3, 0]]);
    expect(copiesOf(together(['A', 'B']))).toEqual([]);
  });

  test('the two kinds do not mix', () => {
    expect(() => join([apart(0), together(['A'], 0)])).toThrow('Two kinds');
  });
});

describe('figures', () => {
  test('the factor multiplies what a sample takes, after the head, and nothing else', () => {
    const sample = { frames: 100, channels: 1, rate: 48_000, width: 1, present: true };
    expect(load(sample, player({ factor: 1.5 }))).toBe(150);
    expect(load(sample, player({ factor: 1.5, head: { bytes: 60 } }))).toBe(90);
    const one = entry([apart(0, 3)], memory({ factor: 2, perCopy: 100, perZone: 10 }));
    expect(instrumentFigure(one, [0]).likely).toBe(100 + 20 + 2 * 9);
  });

  test('a joined need holds all its zones in all its copies', () => {
    const needs = [together(['A'], 0), together(['B'], 3)];
    const one = entry(needs, memory({ shares: 'machine', perCopy: 100, perZone: 10 }));
    expect(instrumentFigure(one, [0]).likely).toBe(111);
    expect(instrumentFigure(one, [1]).likely).toBe(118);
    // 2 x (100 + 2 x 10) + 1 + 8: more than the 229 of the two cues one by one.
    expect(instrumentFigure(one, [0, 1]).likely).toBe(249);
  });

  test('instruments of one definition on one machine share a sample; on two they do not', () => {
    const shared = memory({ shares: 'machine' });
    const [one, other] = [
      entry([together(['A'], 2, 3)], shared, 'one'),
      entry([together(['B'], 0, 3)], shared, 'other'),
    ];
    expect(machineFigure(reelOf(null, one, other), 'm', [0]).likely).toBe(1 + 4 + 8);
    const reel = { machines: { m: 12, n: 8 }, instruments: [one, { ...other, machine: 'n' }] };
    expect(totalBytes(reel, [0])).toBe(12 + 9);
    expect(missing(reel, [0])).toEqual({ n: 1 });
  });

  test('fits: on the high figure, and unknown without a budget', () => {
    const instrument = { ...memory(), readings: [{ zones: [0, 1, 2, 3], bytes: 30 }] };
    // X of all is 15: 2 x X, or X + 15. Of zone 3: 16, or 23.
    const figureWith = (budget: number | null) =>
      machineFigure(reelOf(budget, entry([apart(3)], instrument)), 'm', [0]);
    expect(figureWith(null)).toEqual({ likely: 16, low: 16, high: 23, fits: null });
    expect(figureWith(23).fits).toBe(true);
    expect(figureWith(22).fits).toBe(false);
  });

  test('the peak is the first of equals', () => {
    const reel = reelOf(null, entry([apart(0), apart(3), apart(3), apart(2)]));
    expect(peak(reel)).toBe(1);
    expect(peak(reel, 'm')).toBe(1);
  });
});

describe('changes', () => {
  test('what is in both stays', () => {
    const reel = reelOf(null, entry([apart(0, 1), apart(1, 3)]));
    expect(machineChange(reel, 'm', [0], [1])).toEqual({ load: 8, mayGo: 1 });
    expect(machineChange(reel, 'm', null, [1])).toEqual({ load: 10, mayGo: 0 });
    expect(machineChange(reel, 'm', [0], [0])).toEqual({ load: 0, mayGo: 0 });
  });

  test('never below nothing, whatever the player showed', () => {
    const instrument = { ...memory(), readings: [{ zones: [0, 3], bytes: 5 }] };
    const reel = reelOf(null, entry([apart(3), apart(0)], instrument));
    // Zone 3: 5/9 x 8 = 4.44 -> 4; zone 0: 0.56 -> 1; both: the 5 that was read.
    expect(machineChange(reel, 'm', [0], [1])).toEqual({ load: 1, mayGo: 4 });
    // Zone 3 alone showed 9, with zone 2 beside it nothing.
    const fallen = {
      ...memory(),
      readings: [
        { zones: [2, 3], bytes: 0 },
        { zones: [3], bytes: 9 },
      ],
    };
    expect(machineChange(reelOf(null, entry([apart(3), apart(2)], fallen)), 'm', [0], [1])).toEqual(
      {
        load: 0,
        mayGo: 0,
      },
    );
  });

  test('seconds: players one after the other, machines side by side', () => {
    const at = (id: string, loadRate: number) => memory({ id, loadRate });
    const instruments = [
      entry([apart(), apart(3)], at('p', 2), 'one'), // 8 / 2 = 4
      entry([apart(), apart(2)], at('q', 4), 'two'), // 4 / 4 = 1
      entry([apart(), apart(1, 2)], at('p', 2), 'three', 'n'), // 6 / 2 = 3
    ];
    const reel = { machines: { m: null, n: null }, instruments };
    expect(changeSeconds(reel, [0], [1])).toBe(5);
    expect(reelChange(reel, [0], [1])).toEqual({ load: 18, mayGo: 0 });
  });

  test('seconds: what instruments of one player share is loaded once', () => {
    const shared = memory({ shares: 'machine', loadRate: 2 });
    const needs = [together([]), together(['A'], 3)];
    const reel = reelOf(null, entry(needs, shared, 'one'), entry(needs, shared, 'other'));
    expect(changeSeconds(reel, [0], [1])).toBe(4);
  });

  test('seconds: unknown when a player with bytes to load has no rate, and only then', () => {
    const reel = reelOf(
      null,
      entry([apart(), apart(3), apart(3)], memory({ id: 'p', loadRate: 8 }), 'one'),
      entry([apart(0), apart(0), apart(1)], memory({ id: 'q' }), 'two'),
    );
    expect(changeSeconds(reel, [0], [1])).toBe(1);
    expect(changeSeconds(reel, [1], [2])).toBe(null);
  });
});

describe('loading groups', () => {
  const grouped = (budget: number | null, ...needs: ReelNeed[]) =>
    bestGrouping(reelOf(budget, entry(needs)));

  test('no budget: all at once', () => {
    expect(grouped(null, apart(0), apart(1), apart(2))).toEqual({ groups: [[0, 1, 2]], loaded: 0 });
  });

  test('one cue, and a cue too large even alone', () => {
    expect(grouped(1, apart(3))).toEqual({ groups: [[0]], loaded: 0 });
    // Zone 3 is larger than the budget of 7, and stands alone.
    expect(grouped(7, apart(0), apart(3), apart(1), apart(2))).toEqual({
      groups: [[0], [1], [2, 3]],
      loaded: 8 + 6,
    });
    expect(missing(reelOf(7, entry([apart(3)])), [0])).toEqual({ m: 1 });
  });

  test('as full as it goes is not always the least to load', () => {
    // 1+8, 2+8, 4, 8 within 14: {1,8,2} is 11, {2,8,4} is 14, {4,8} is 12, {1,8,2,4} is 15.
    const needs = [apart(0, 3), apart(1, 3), apart(2), apart(3)];
    // [0][1,2,3] loads 6; [0,1][2,3] loads 4.
    expect(grouped(14, ...needs)).toEqual({
      groups: [
        [0, 1],
        [2, 3],
      ],
      loaded: 4,
    });
    const all = groupings(reelOf(14, entry(needs)));
    expect(all.filter(({ groups }) => groups.length === 2)).toEqual([
      {
        groups: [
          [0, 1],
          [2, 3],
        ],
        loaded: 4,
      },
      { groups: [[0], [1, 2, 3]], loaded: 6 },
    ]);
    expect(all.length).toBe(2 + 3 + 1);
  });

  test('of equals, the one whose groups end first', () => {
    // 1, then twice the same 2, then 4 within 6: [0][1,2,3] and [0,1][2,3] and [0,1,2][3] load
    // 6, 4 and 4.
    expect(grouped(6, apart(0), apart(1), apart(1), apart(2))).toEqual({
      groups: [
        [0, 1],
        [2, 3],
      ],
      loaded: 4,
    });
  });

  test('every machine has to hold the group', () => {
    const instruments = [
      entry([apart(0), apart(0), apart(0)], memory(), 'one'),
      entry([apart(0), apart(1), apart(2)], memory(), 'two', 'n'),
    ];
    const best = bestGrouping({ machines: { m: 1, n: 6 }, instruments });
    expect(best).toEqual({ groups: [[0, 1], [2]], loaded: 4 });
  });
});

describe('placement', () => {
  const whole = (id: string, machine: string, ...zones: number[]) =>
    entry([apart(...zones)], memory({}, id), id, machine);

  test('nothing moves where all fits', () => {
    const reel = { machines: { m: 12, n: null }, instruments: [whole('a', 'm', 2, 3)] };
    expect(placements(reel)).toEqual({ bytes: 0, moved: 0, ways: [{ a: 'm' }] });
  });

  test('the lightest that is enough', () => {
    // 1 + 4 + 8 = 13 on 10: without the 4 they are 9.
    const instruments = [whole('a', 'm', 0), whole('b', 'm', 2), whole('c', 'm', 3)];
    const reel = { machines: { m: 10, n: 8 }, instruments };
    expect(placements(reel)).toEqual({ bytes: 4, moved: 1, ways: [{ a: 'm', b: 'n', c: 'm' }] });
    // No room for the 4 but for the 1, which is not enough; and for the 8 neither.
    expect(placements({ ...reel, machines: { m: 10, n: 3 } })).toBe(null);
  });

  test('of equal bytes the fewest instruments, of those all that are equal', () => {
    // 3 = 1 + 2: away go one instrument of 3 or two of 1 and 2.
    const instruments = [whole('a', 'm', 0), whole('b', 'm', 1), whole('c', 'm', 0, 1)];
    const reel = { machines: { m: 3, n: 3, o: 3 }, instruments };
    expect(placements(reel)).toEqual({
      bytes: 3,
      moved: 1,
      ways: [
        { a: 'm', b: 'm', c: 'n' },
        { a: 'm', b: 'm', c: 'o' },
      ],
    });
  });

  test('what is weighed is the whole reel', () => {
    const needs = [apart(0), apart(3)];
    const instruments = [
      entry(needs, memory({}, 'a'), 'a'),
      entry([apart(2), apart(2)], memory({}, 'b'), 'b'),
    ];
    const reel = { machines: { m: 12, n: 9 }, instruments };
    expect(placements(reel)).toEqual({ bytes: 4, moved: 1, ways: [{ a: 'm', b: 'n' }] });
  });

  test('two that share a sample weigh it each, but take it once', () => {
    const shared = memory({ shares: 'machine' });
    const instruments = [
      entry([together(['A'], 3)], shared, 'a'),
      entry([together(['B'], 0, 3)], shared, 'b'),
    ];
    expect(placements({ machines: { m: 9, n: 0 }, instruments })?.moved).toBe(0);
    expect(placements({ machines: { m: 0, n: 9 }, instruments })).toEqual({
      bytes: 8 + 9,
      moved: 2,
      ways: [{ a: 'n', b: 'n' }],
    });
  });

  test('8 instruments on 3 machines', () => {
    const instruments = [...'abcdefgh'].map((id) => whole(id, 'm', 3));
    const found = placements({ machines: { m: 16, n: 24, o: 24 }, instruments });
    // Two stay; 6 go, three to each: 28 pairs that stay x 20 ways to part the others.
    expect([found?.bytes, found?.moved, found?.ways.length]).toEqual([48, 6, 560]);
  });
});

/** Reels without readings: one machine or two, players of both kinds, cues up to 5. */
const zoneList = fc.subarray([0, 1, 2, 3]);
const needs = {
  copy: fc.dictionary(fc.constantFrom('A', 'B', 'C'), zoneList).map((byCopy) => ({ byCopy })),
  machine: fc
    .record({ zones: zoneList, copies: fc.subarray(['A', 'B', 'C']) })
    .map((need) => (need.zones.length === 0 ? together([]) : need)),
};
const reels = (zoneCost: fc.Arbitrary<number>) =>
  fc.integer({ min: 1, max: 5 }).chain((count) => {
    const instrument = (shares: 'copy' | 'machine', index: number) =>
      fc
        .record({
          machine: fc.constantFrom('m', 'n'),
          sha256: fc.constantFrom('one', 'two'),
          needs: fc.array<ReelNeed>(needs[shares], { minLength: count, maxLength: count }),
        })
        .map((one) => ({ ...one, id: `${shares}${index}`, shares }));
    return fc
      .record({
        budgets: fc.tuple(fc.option(fc.nat(60)), fc.option(fc.nat(60))),
        costs: fc.record({ perZone: zoneCost, perCopy: fc.nat(5) }),
        all: fc.tuple(instrument('copy', 0), instrument('machine', 1), instrument('machine', 2)),
      })
      .map(({ budgets: [m, n], costs, all }): Reel => ({
        machines: { m, n },
        instruments: all.map(({ shares, sha256, ...one }) => ({
          ...one,
          instrument: memory({ id: shares, shares, ...costs }, sha256),
        })),
      }));
  });
const cuesOf = (reel: Reel) => reel.instruments[0]!.needs.map((_, cue) => cue);

describe('any reel, as far as it is computed', () => {
  test('the reel is never below its peak', () => {
    fc.assert(
      fc.property(reels(fc.nat(5)), (reel) => {
        for (const id of ['m', 'n']) {
          const all = machineFigure(reel, id, cuesOf(reel)).likely;
          expect(all).toBeGreaterThanOrEqual(machineFigure(reel, id, [peak(reel, id)]).likely);
        }
        expect(totalBytes(reel, cuesOf(reel))).toBeGreaterThanOrEqual(
          totalBytes(reel, [peak(reel)]),
        );
      }),
    );
  });

  // With a cost per zone it can be above: copies that share hold each other's zones ("a joined need
  // holds all its zones in all its copies").
  test('the reel is never above the sum of its cues, if zones cost nothing by themselves', () => {
    fc.assert(
      fc.property(reels(fc.constant(0)), (reel) => {
        const cues = cuesOf(reel).map((cue) => totalBytes(reel, [cue]));
        expect(totalBytes(reel, cuesOf(reel))).toBeLessThanOrEqual(cues.reduce((a, b) => a + b));
      }),
    );
  });

  test('copies apart: never above the sum of its cues, whatever a zone costs', () => {
    fc.assert(
      fc.property(reels(fc.nat(5)), (reel) => {
        const one = reel.instruments[0]!;
        const cues = cuesOf(reel).map((cue) => instrumentFigure(one, [cue]).likely);
        const all = instrumentFigure(one, cuesOf(reel)).likely;
        expect(all).toBeLessThanOrEqual(cues.reduce((a, b) => a + b));
      }),
    );
  });

  test('before + load - may go = after', () => {
    fc.assert(
      fc.property(reels(fc.nat(5)), (reel) => {
        for (const cue of cuesOf(reel).slice(1)) {
          const { load, mayGo } = reelChange(reel, [cue - 1], [cue]);
          expect(totalBytes(reel, [cue - 1]) + load - mayGo).toBe(totalBytes(reel, [cue]));
        }
      }),
    );
  });

  test('groups cover the order, hold what they may, and no two neighbours could be one', () => {
    fc.assert(
      fc.property(reels(fc.nat(5)), (reel) => {
        const { groups } = bestGrouping(reel);
        const fits = (cues: readonly number[]) => Object.keys(missing(reel, cues)).length === 0;
        expect(groups.flat()).toEqual(cuesOf(reel));
        for (const group of groups) expect(group.length === 1 || fits(group)).toBe(true);
        groups.slice(1).forEach((group, before) => {
          expect(fits([...groups[before]!, ...group])).toBe(false);
        });
      }),
    );
  });

  test('after a placement the reel fits everywhere', () => {
    fc.assert(
      fc.property(reels(fc.nat(5)), (reel) => {
        const found = placements(reel);
        fc.pre(found !== null);
        for (const way of found.ways) {
          const instruments = reel.instruments.map((one) => ({ ...one, machine: way[one.id]! }));
          expect(missing({ ...reel, instruments }, cuesOf(reel))).toEqual({});
        }
      }),
    );
  });
});
