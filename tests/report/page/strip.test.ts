import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { OverviewCell } from '../../../src/overview/overview-map.ts';
import { strip, stripPath } from '../../../src/report/page/strip.ts';

/** Cells beside each other, with gaps, in any state. */
const cellsOf = fc
  .array(fc.tuple(fc.nat(3), fc.integer({ min: 1, max: 4 }), fc.nat(3)), { maxLength: 12 })
  .map((steps) => {
    let key = 24;
    return steps.map(([gap, width, state]): OverviewCell => {
      const lo = key + gap;
      key = lo + width;
      return [lo, key - 1, state, 1, 0, -1, 0, 0];
    });
  });

const keysOfPath = (path: string, lo: number): readonly number[] =>
  [...path.matchAll(/M(\d+) 0h(\d+)/g)].flatMap(([, from, width]) =>
    Array.from({ length: Number(width) }, (_, i) => lo + Number(from) + i),
  );

test('the paths of a strip are its cells, key by key', () => {
  fc.assert(
    fc.property(cellsOf, (cells) => {
      for (const state of [0, 1, 2, 3]) {
        const path = stripPath(cells, state, 24);
        expect(path.replace(/M\d+ 0h\d+/g, '')).toBe('');
        const keys = cells
          .filter((cell) => cell[2] === state)
          .flatMap(([lo, hi]) => Array.from({ length: hi - lo + 1 }, (_, i) => lo + i));
        expect(keysOfPath(path, 24)).toEqual(keys);
      }
    }),
  );
});

test('one path for a state that is there, none for others', () => {
  const cells: readonly OverviewCell[] = [
    [60, 62, 0, 3, 3, 0, 0, 0],
    [63, 63, 3, 1, 0, -1, 0, 0],
    [64, 64, 0, 1, 1, 0, 0, 0],
  ];
  expect(strip(cells, 48).text).toBe(
    '<svg class=s><path class=k d="M12 0h3M16 0h1"/><path class=x d="M15 0h1"/></svg>',
  );
});
