import { toRanges, type Range } from '../terms/range.ts';
import type { Playable, PlayableStretch } from './overview.ts';

type Dynamics = PlayableStretch['dynamics'];

/**
 * What may be written whichever of several copies plays it: keys that sound in all of them, with the
 * dynamics for which none of them lacks anything.
 */
export const inAllCopies = (each: readonly Playable[]): Playable => {
  const dynamicsAt = each.map(({ stretches }) => byKey(stretches));
  const all = numbersIn(each.flatMap((one) => one.all));
  const stretches = new Map<string, { readonly keys: number[]; readonly dynamics: Dynamics }>();
  for (const key of all) {
    const here = dynamicsAt.flatMap((at) => {
      const dynamics = at.get(key);
      return dynamics === undefined ? [] : [dynamics];
    });
    if (here.length < each.length) continue;
    const dynamics = common(here);
    const text = JSON.stringify(dynamics);
    const known = stretches.get(text);
    if (known === undefined) stretches.set(text, { keys: [key], dynamics });
    else known.keys.push(key);
  }
  const isWhole = each.every(({ state }) => state === 'whole');
  return {
    state: stretches.size === 0 ? 'gone' : isWhole ? 'whole' : 'part',
    all: toRanges(all),
    stretches: [...stretches.values()].map(({ keys, dynamics }) => ({
      keys: toRanges(keys),
      dynamics,
    })),
  };
};

const byKey = (stretches: readonly PlayableStretch[]): ReadonlyMap<number, Dynamics> =>
  new Map(
    stretches.flatMap(({ keys, dynamics }) =>
      numbersIn(keys).map((key): [number, Dynamics] => [key, dynamics]),
    ),
  );

const numbersIn = (ranges: readonly Range[]): readonly number[] =>
  [
    ...new Set(ranges.flatMap(([lo, hi]) => Array.from({ length: hi - lo + 1 }, (_, i) => lo + i))),
  ].sort((a, b) => a - b);

const isFree = (dynamics: Dynamics): boolean =>
  dynamics.length === 0 ||
  dynamics.some(({ safe, all }) => safe.some(([lo, hi]) => lo <= all[0] && hi >= all[1]));

/** A value of one control is safe where each copy is free, or says so of that very control. */
const common = (copies: readonly Dynamics[]): Dynamics => {
  const bys = [...new Set(copies.flatMap((dynamics) => dynamics.map(({ by }) => by)))].sort(
    (a, b) => number(a) - number(b),
  );
  return bys.map((by) => {
    const own = copies.map((dynamics) => dynamics.find((one) => one.by === by));
    const ranges = own.flatMap((one) => (one === undefined ? [] : [one.all]));
    const all: Range = [
      Math.min(...ranges.map(([lo]) => lo)),
      Math.max(...ranges.map(([, hi]) => hi)),
    ];
    const safe = numbersIn([all]).filter((value) =>
      copies.every(
        (dynamics, i) =>
          isFree(dynamics) || (own[i]?.safe ?? []).some(([lo, hi]) => lo <= value && value <= hi),
      ),
    );
    return { by, safe: toRanges(safe), all };
  });
};

const number = (by: Dynamics[number]['by']): number => (by === 'velocity' ? -1 : by);
