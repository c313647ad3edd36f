/** A closed range of whole numbers, `[lo, hi]`, both ends included. */
export type Range = readonly [lo: number, hi: number];

/** True when `value` lies in `range`, ends included. */
export const contains = (range: Range, value: number): boolean =>
  value >= range[0] && value <= range[1];

/** The numbers common to both ranges, or null when there are none. */
export const intersect = (a: Range, b: Range): Range | null => {
  const lo = Math.max(a[0], b[0]);
  const hi = Math.min(a[1], b[1]);
  return lo <= hi ? [lo, hi] : null;
};

/**
 * Joins single numbers into sorted, disjoint ranges.
 *
 * @example toRanges([60, 62, 61, 67]) // [[60, 62], [67, 67]]
 */
export const toRanges = (values: Iterable<number>): readonly Range[] => {
  const ranges: [number, number][] = [];
  for (const value of [...values].sort((a, b) => a - b)) {
    const last = ranges.at(-1);
    if (last !== undefined && value <= last[1] + 1) last[1] = Math.max(last[1], value);
    else ranges.push([value, value]);
  }
  return ranges;
};

/** The whole numbers of a range. @example numbersIn([3, 5]) // [3, 4, 5] */
export const numbersIn = ([lo, hi]: Range): readonly number[] =>
  Array.from({ length: hi - lo + 1 }, (_, i) => lo + i);
