import type { Range } from '../../../terms/range.ts';

/** Controller values at which the curves that every engine knows are not 0 (documentation, "curve"). */
const builtIn: Readonly<Record<number, Range>> = {
  // linear
  0: [1, 127],
  // inverted
  2: [0, 126],
  // concave
  4: [1, 127],
  // fade in by power
  5: [1, 127],
  // fade out by power
  6: [0, 126],
};

const everything: Range = [0, 127];

const nothing: Range = [Infinity, -Infinity];

/**
 * From the lowest to the highest controller value at which a curve is not 0: what lies between is
 * counted in, whatever the curve does there.
 *
 * @param own curves of the instrument, which come before the known ones
 */
export const curveZeros = (index: number, own: ReadonlyMap<number, readonly number[]>): Range => {
  const values = own.get(index);
  if (values === undefined) return builtIn[index] ?? everything;
  const lo = values.findIndex((value) => value !== 0);
  return lo < 0 ? nothing : [lo, values.findLastIndex((value) => value !== 0)];
};
