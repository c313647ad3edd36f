import type { Line } from './calibration.ts';

/** A pair of amounts: computed, and what the player's display showed. */
export interface Point {
  readonly computed: number;
  readonly shown: number;
}

/**
 * The straight line with the least sum of squared differences, by the closed formula of simple linear
 * regression (any textbook of statistics): slope = sum of dx dy / sum of dx dx, where dx and dy are
 * differences from the means. Taking the means off first keeps the digits of large byte counts.
 *
 * @returns null when all points are computed the same, as no line is better than another then
 */
export const leastSquares = (points: readonly Point[]): Line | null => {
  const first = points[0]?.computed;
  if (points.every(({ computed }) => computed === first)) return null;
  const meanComputed = mean(points.map(({ computed }) => computed));
  const meanShown = mean(points.map(({ shown }) => shown));
  let products = 0;
  let squares = 0;
  for (const { computed, shown } of points) {
    products += (computed - meanComputed) * (shown - meanShown);
    squares += (computed - meanComputed) ** 2;
  }
  const factor = products / squares;
  return { fixed: meanShown - factor * meanComputed, factor };
};

/** The same with no fixed part: slope = sum of x y / sum of x x. Not all may be computed as 0. */
export const throughOrigin = (points: readonly Point[]): Line => {
  let products = 0;
  let squares = 0;
  for (const { computed, shown } of points) {
    products += computed * shown;
    squares += computed ** 2;
  }
  return { fixed: 0, factor: products / squares };
};

const mean = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0) / values.length;
