/** The judge of what was written: it must notice every way in which something may be missing. */
import { describe, expect, test } from 'vitest';
import type { DroppedZone, KeptZone, Plan, Reason } from '../../src/keep/plan.ts';
import { comparePlans } from '../../src/trim/compare-plans.ts';
import type { Placed } from '../../src/trim/place.ts';

const kept = (
  zone: number,
  reason: Reason,
  cues: Readonly<Record<string, number>> = {},
  bytes = 100,
): KeptZone => ({
  zone,
  key: null,
  samples: [],
  articulations: [],
  bytes,
  reasons: [reason],
  doubts: [],
  notes: Object.values(cues).reduce((sum, count) => sum + count, 0),
  cues,
  witnesses: [],
});
const dropped = (zone: number): DroppedZone => ({
  zone,
  key: null,
  samples: [],
  articulations: [],
  bytes: 100,
});

const planOf = (zones: readonly KeptZone[], gone: readonly DroppedZone[] = [], id = 'x'): Plan =>
  ({ instruments: [{ id, kept: zones, dropped: gone }] }) as unknown as Plan;

const placed = (
  map: readonly (readonly [number, number])[],
  places: readonly number[] = [],
): readonly Placed[] => [
  {
    definition: { instruments: ['x'] },
    trimmed: { zones: new Map(map), places },
    path: 'x.sfz',
    files: [],
  } as unknown as Placed,
];

/** The full plan: 3 is played in two cues, 5 is in doubt, 7 mutes, 9 is its player's. */
const full = planOf(
  [
    kept(3, 'played', { a: 2, b: 1 }),
    kept(5, 'order', { a: 4 }),
    kept(7, 'mutes', { a: 1 }, 0),
    kept(9, 'grain'),
  ],
  [dropped(1)],
);
const set = {
  loaded: new Set([3, 5]),
  silent: new Set([7]),
  presetZones: new Set<number>(),
  programs: new Set<number>(),
};
const map = [
  [3, 0],
  [5, 1],
  [7, 2],
] as const;
const good = [
  kept(0, 'played', { a: 2, b: 1 }),
  kept(1, 'order', { a: 4 }),
  kept(2, 'mutes', { a: 1 }, 0),
];

const compare = (
  small: Plan,
  zones: readonly (readonly [number, number])[] = map,
  places: readonly number[] = [],
) =>
  comparePlans(
    full,
    small,
    placed(zones, places),
    () => set,
    (cue) => cue,
  );

describe('two plans', () => {
  test('the same', () => {
    expect(compare(planOf(good))).toEqual({ zones: 1, unmet: [], more: [] });
  });

  test.each<readonly [string, readonly KeptZone[]]>([
    ['a zone is missing', good.slice(1)],
    ['a note less', [kept(0, 'played', { a: 1, b: 1 }), ...good.slice(1)]],
    ['as many notes, in other cues', [kept(0, 'played', { a: 1, b: 2 }), ...good.slice(1)]],
    [
      'notes more, of a cue that had none',
      [kept(0, 'played', { a: 2, b: 1, c: 1 }), ...good.slice(1)],
    ],
    ['what was certain is in doubt', [kept(0, 'order', { a: 2, b: 1 }), ...good.slice(1)]],
    ['its sample is gone', [kept(0, 'played', { a: 2, b: 1 }, 0), ...good.slice(1)]],
    ['the sample of a doubtful one is gone', [good[0]!, kept(1, 'order', { a: 4 }, 7), good[2]!]],
    ['a doubtful one is missing', [good[0]!, good[2]!]],
    ['one that stops others is missing', good.slice(0, 2)],
  ])('%s', (_, zones) => {
    const { unmet } = compare(planOf(zones));
    expect(unmet).toHaveLength(1);
    expect(unmet[0]!.code).toBe('trim-unmet');
  });

  test('a zone that has no number any more', () => {
    expect(compare(planOf(good), map.slice(1)).unmet).toHaveLength(1);
  });

  test('a doubt that is none any more keeps its zone: it is there', () => {
    const small = planOf([good[0]!, good[2]!], [dropped(1)]);
    const { unmet, more } = compare(small);
    expect(unmet).toEqual([]);
    expect(more.map(({ args }) => args)).toEqual([{ instrument: 'x', zones: 1 }]);
  });

  test('what holds a place is not counted as more', () => {
    expect(compare(planOf(good, [dropped(3)]), map, [3]).more).toEqual([]);
    expect(compare(planOf(good, [dropped(3)])).more).toHaveLength(1);
  });

  test('a cue that is called by another path there', () => {
    const renamed = [kept(0, 'played', { '../a': 2, b: 1 }), ...good.slice(1)];
    const { unmet } = comparePlans(
      full,
      planOf(renamed),
      placed(map),
      () => set,
      (cue) => (cue === 'a' ? '../a' : cue),
    );
    expect(unmet).toEqual([]);
  });
});
