import type { DoubtSet } from '../terms/doubt.ts';

/** The minimal doubt sets under which something is reached; empty: it is not. */
export type DoubtSets = readonly DoubtSet[];

/** True when one of the sets holds without any doubt of `excluded`. */
export const holdsWithout = (sets: DoubtSets, excluded: DoubtSet): boolean =>
  sets.some((set) => (set & excluded) === 0);
