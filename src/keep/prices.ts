import type { Instrument } from '../instruments/instrument.ts';
import { doubtNames, doubtSet, namesOf, type DoubtName, type DoubtSet } from '../terms/doubt.ts';
import {
  decide,
  decisionBytes,
  settledAsPlain,
  type Settlements,
  type ZoneDoubts,
} from './decision.ts';
import type { Plan, PlanDoubt } from './plan.ts';

/** The largest group of doubts that is priced as one. */
const groupLimit = 3;

/**
 * What doubts cost (design, section 6): F(T) = bytes kept under the open doubts less bytes kept
 * without those in T. A doubt settled as plain shows what that freed.
 */
export const priceDoubts = (
  instrument: Instrument,
  doubts: ZoneDoubts,
  settle: Settlements,
): Pick<Plan, 'doubts' | 'together' | 'doubtsAll'> => {
  const settled = settledAsPlain(settle);
  const occurring = doubts.flat().reduce((all, set) => all | set, 0);
  const measure = (excluded: DoubtSet): { zones: number; bytes: number } => {
    const decision = decide(instrument, doubts, excluded);
    const zones = decision.byUsage.filter((kept, i) => kept || decision.linked[i]!).length;
    return { zones, bytes: decisionBytes(instrument, decision) };
  };
  const now = measure(settled);
  const freed = new Map<DoubtSet, number>();
  const price = (set: DoubtSet): number => {
    let bytes = freed.get(set);
    if (bytes === undefined) freed.set(set, (bytes = now.bytes - measure(settled | set).bytes));
    return bytes;
  };
  const priced = namesOf(occurring).map((name): PlanDoubt => {
    const own = doubtSet(name);
    const answer = settle[name] ?? null;
    const [more, less] =
      answer === 'plain' ? [measure(settled & ~own), now] : [now, measure(settled | own)];
    return {
      name,
      settled: answer,
      zones: more.zones - less.zones,
      bytes: more.bytes - less.bytes,
    };
  });
  const open = namesOf(occurring).filter((name) => settle[name] === undefined);
  return {
    doubts: priced.sort((a, b) => b.bytes - a.bytes || rank(a.name) - rank(b.name)),
    together: groups(open)
      .map((names) => ({ names, bytes: price(doubtSet(...names)) }))
      .filter(({ names, bytes }) => splits(names).every(([a, b]) => bytes > price(a) + price(b)))
      .sort((a, b) => b.bytes - a.bytes || a.names.length - b.names.length),
    doubtsAll: price(occurring & ~settled),
  };
};

const rank = (name: DoubtName): number => doubtNames.indexOf(name);

/** All groups of two or three, in order. */
const groups = (names: readonly DoubtName[]): readonly (readonly DoubtName[])[] => {
  const found: DoubtName[][] = [];
  const extend = (group: DoubtName[], from: number): void => {
    if (group.length >= 2) found.push(group);
    if (group.length === groupLimit) return;
    for (let i = from; i < names.length; i++) extend([...group, names[i]!], i + 1);
  };
  extend([], 0);
  return found;
};

/** Every way to part a group in two. */
const splits = (names: readonly DoubtName[]): readonly (readonly [DoubtSet, DoubtSet])[] => {
  const all = doubtSet(...names);
  return Array.from({ length: 2 ** (names.length - 1) - 1 }, (_, i) => {
    const part = doubtSet(...names.filter((_name, bit) => ((i + 1) & (1 << bit)) !== 0));
    return [part, all & ~part] as const;
  });
};
