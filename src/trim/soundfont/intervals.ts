/** Half-open stretch of sample points: `from` up to, and without, `to`. */
export interface Interval {
  readonly from: number;
  readonly to: number;
}

/** The same points as disjoint stretches that do not touch, ascending. Empty ones go. */
export const merged = (intervals: readonly Interval[]): readonly Interval[] => {
  const result: { from: number; to: number }[] = [];
  const ascending = intervals.filter(({ from, to }) => from < to).sort((a, b) => a.from - b.from);
  for (const { from, to } of ascending) {
    const last = result.at(-1);
    if (last === undefined || from > last.to) result.push({ from, to });
    else last.to = Math.max(last.to, to);
  }
  return result;
};

/** Points in disjoint intervals. */
export const sizeOf = (intervals: readonly Interval[]): number =>
  intervals.reduce((sum, { from, to }) => sum + to - from, 0);

/**
 * How many points before `point` are in none of the intervals: by so much it moves to the front when
 * only they stay.
 *
 * @param intervals as {@link merged} returns them
 * @param points how many there are in all; what lies behind them moves as their end does
 */
export const shiftAt = (
  intervals: readonly Interval[],
  points: number,
): ((point: number) => number) => {
  const keptBefore = [0];
  for (const { from, to } of intervals) keptBefore.push(keptBefore.at(-1)! + to - from);
  return (point) => {
    const within = Math.min(point, points);
    // The first interval that begins behind the point.
    let low = 0;
    let high = intervals.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (intervals[middle]!.from > within) high = middle;
      else low = middle + 1;
    }
    if (low === 0) return within;
    const { from, to } = intervals[low - 1]!;
    return within - keptBefore[low - 1]! - (Math.min(within, to) - from);
  };
};
