import { doubtSet, plain, within, type DoubtSet } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';

/** One way to read a pair of limits. */
export interface RangeReading {
  readonly range: Range;
  readonly doubt: DoubtSet;
}

export const engine = doubtSet('engine');

/** A limit as it is written, and what may be written. */
export interface Limit {
  /** Null where the region does not say. */
  readonly value: number | null;
  /** What stands where it does not say. */
  readonly absent: number;
}

/**
 * A pair of limits. Values outside what the documentation allows are held to it, plainly; other
 * engines drop them, so that the default stands (doubt `engine`). Empty ranges are left out.
 */
export const rangeReadings = (lo: Limit, hi: Limit, allowed: Range): readonly RangeReading[] => {
  const isOut = ({ value }: Limit): boolean =>
    value !== null && (value < allowed[0] || value > allowed[1]);
  const held = ({ value, absent }: Limit): number =>
    value === null ? absent : Math.min(Math.max(value, allowed[0]), allowed[1]);
  const dropped = (limit: Limit): number => (isOut(limit) ? limit.absent : held(limit));
  return distinct([
    { range: [held(lo), held(hi)], doubt: plain },
    ...(isOut(lo) || isOut(hi)
      ? [{ range: [dropped(lo), dropped(hi)] as const, doubt: engine }]
      : []),
  ]);
};

/** Without empty ranges, and without what a smaller doubt set says already. */
export const distinct = (readings: readonly RangeReading[]): readonly RangeReading[] => {
  const filled = readings.filter(({ range: [lo, hi] }) => lo <= hi);
  return filled.filter(
    ({ range, doubt }, i) =>
      !filled.some(
        (other, j) =>
          j !== i &&
          other.range[0] <= range[0] &&
          other.range[1] >= range[1] &&
          within(other.doubt, doubt) &&
          (other.doubt !== doubt || j < i || wider(other.range, range)),
      ),
  );
};

const wider = (a: Range, b: Range): boolean => a[1] - a[0] > b[1] - b[0];

/** Each reading with its range cut by another. */
export const cut = (
  readings: readonly RangeReading[],
  by: readonly RangeReading[],
): readonly RangeReading[] =>
  distinct(
    readings.flatMap(({ range, doubt }) =>
      by.map((other) => ({
        range: [Math.max(range[0], other.range[0]), Math.min(range[1], other.range[1])] as const,
        doubt: doubt | other.doubt,
      })),
    ),
  );
