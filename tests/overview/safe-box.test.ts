import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isTooMuch, safeBox } from '../../src/overview/safe-box.ts';
import type { Range } from '../../src/terms/range.ts';

const cut = (...starts: readonly number[]): readonly Range[] =>
  starts.slice(0, -1).map((lo, i) => [lo, starts[i + 1]! - 1]);

const size = (box: readonly Range[]): number =>
  box.reduce((product, [lo, hi]) => product * (hi - lo + 1), 1);

const numbersIn = ([lo, hi]: Range): readonly number[] =>
  Array.from({ length: hi - lo + 1 }, (_, i) => lo + i);

const bands: fc.Arbitrary<readonly Range[]> = fc
  .uniqueArray(fc.integer({ min: 1, max: 6 }), { maxLength: 3 })
  .map((some) => cut(0, ...some.sort((a, b) => a - b), 7));

/** Every box of values there is, not of bands. */
const naive = (count: number, isSafe: (values: readonly number[]) => boolean): number => {
  const ranges = numbersIn([0, 6]).flatMap((lo) => numbersIn([lo, 6]).map((hi): Range => [lo, hi]));
  const boxes = Array.from({ length: count }).reduce<readonly (readonly Range[])[]>(
    (before) => before.flatMap((box) => ranges.map((range) => [...box, range])),
    [[]],
  );
  const points = (box: readonly Range[]): readonly (readonly number[])[] =>
    box.reduce<readonly (readonly number[])[]>(
      (before, range) => before.flatMap((one) => numbersIn(range).map((value) => [...one, value])),
      [[]],
    );
  return Math.max(0, ...boxes.filter((box) => points(box).every(isSafe)).map(size));
};

test('no box of values is larger, and nothing in it is unsafe', () => {
  fc.assert(
    fc.property(
      fc.array(bands, { minLength: 1, maxLength: 2 }),
      fc.array(fc.boolean(), { minLength: 16, maxLength: 16 }),
      (controls, safe) => {
        const isSafe = (values: readonly number[]): boolean => {
          const places = values.map((value, i) =>
            controls[i]!.findIndex(([lo, hi]) => lo <= value && value <= hi),
          );
          return safe[places.reduce((sum, place) => sum * 4 + place, 0)]!;
        };
        const box = safeBox(
          controls.map((own) => ({ bands: own })),
          isSafe,
        );
        expect(box === null ? 0 : size(box)).toBe(naive(controls.length, isSafe));
        const [first = [0, -1], second = [0, 0]] = box ?? [];
        for (const a of numbersIn(first)) {
          for (const b of numbersIn(second)) {
            expect(isSafe([a, b].slice(0, controls.length))).toBe(true);
          }
        }
      },
    ),
    { numRuns: 200 },
  );
});

test('three controls: the wider of two boxes', () => {
  const thirds = { bands: cut(0, 40, 100, 128) };
  const isSafe = ([a = 0, b = 0, c = 0]: readonly number[]): boolean =>
    (a < 40 && b < 40 && c < 40) || (a >= 100 && b >= 40 && c >= 40);
  expect(safeBox([thirds, thirds, thirds], isSafe)).toEqual([
    [100, 127],
    [40, 127],
    [40, 127],
  ]);
});

test('nothing is safe, or there is too much to look through', () => {
  const single = { bands: cut(...numbersIn([0, 128])) };
  expect(safeBox([single], () => false)).toBeNull();
  expect([isTooMuch([single, single]), isTooMuch([single, single, single])]).toEqual([false, true]);
  expect(() => safeBox([single, single, single], () => true)).toThrow(RangeError);
});
