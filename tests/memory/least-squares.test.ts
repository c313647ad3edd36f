import { expect, test } from 'vitest';
import { leastSquares, throughOrigin } from '../../src/memory/least-squares.ts';
import { norris, norrisLine } from './norris.ts';

test('the line of the data set Norris, as certified', () => {
  const line = leastSquares(norris)!;
  expect(line.fixed).toBeCloseTo(norrisLine.fixed, 11);
  expect(line.factor).toBeCloseTo(norrisLine.factor, 13);
});

test('the line through the origin of the data set NoInt1, as certified', () => {
  // NIST/ITL StRD, linear least squares, NoInt1: x = 60 ... 70, y = 130 ... 140; B1 with 15 digits.
  const points = Array.from({ length: 11 }, (_, i) => ({ computed: 60 + i, shown: 130 + i }));
  const line = throughOrigin(points);
  expect(line.fixed).toBe(0);
  expect(line.factor).toBeCloseTo(2.074_380_165_289_26, 13);
});

test('large amounts that lie close together keep their digits', () => {
  // Norris again as byte counts: x and y in units of 10 bytes, both 1 TiB further on. With x' = 10 x + s
  // and y' = 10 y + s the slope stays and the fixed part is 10 B0 + s (1 - B1).
  const shift = 2 ** 40;
  const points = norris.map(({ computed, shown }) => ({
    computed: Math.round(computed * 10) + shift,
    shown: Math.round(shown * 10) + shift,
  }));
  const line = leastSquares(points)!;
  expect(line.factor).toBeCloseTo(norrisLine.factor, 9);
  // At the first point the line is at 10 (B0 + B1 x) + s.
  const first = points[0]!.computed;
  const expected = 10 * (norrisLine.fixed + norrisLine.factor * norris[0]!.computed) + shift;
  expect(Math.abs(line.fixed + line.factor * first - expected)).toBeLessThan(0.01);
});

test('two points are their own line', () => {
  // By hand: (2, 7) and (4, 11): 2 up for 1 along, 3 at 0.
  const line = leastSquares([
    { computed: 2, shown: 7 },
    { computed: 4, shown: 11 },
  ]);
  expect(line).toEqual({ fixed: 3, factor: 2 });
});

test('no line where nothing differs', () => {
  expect(leastSquares([])).toBeNull();
  expect(leastSquares([{ computed: 5, shown: 9 }])).toBeNull();
  const same = [9, 7, 8].map((shown) => ({ computed: 0.1, shown }));
  expect(leastSquares(same)).toBeNull();
});
