import { expect, test } from 'vitest';
import {
  joinedCells,
  layersTogether,
  octaveCells,
  ofOneState,
  tellAlike,
} from '../../src/overview/joined-cells.ts';
import type { OverviewCell } from '../../src/overview/overview-map.ts';
import { ReasonLists } from '../../src/overview/reason-lists.ts';

/** Reasons of the cells below: 0 is played, 1 is headroom. */
const lists = () => new ReasonLists([['played'], ['headroom']]);

// By hand: two cells that are played, with two zones and one, then headroom, then a gap, then dropped.
const cells: readonly OverviewCell[] = [
  [40, 42, 0, 2, 2, 0, 0, 1],
  [43, 45, 0, 1, 1, 0, 1, 1],
  [46, 48, 0, 1, 1, 1, 0, 0],
  [50, 52, 3, 4, 0, -1, 0, 0],
  [53, 60, 2, 4, 4, 1, 0, 0],
];

test('cells that differ only in how many zones they have become one, with the witness of the first', () => {
  expect(joinedCells(cells, tellAlike, lists())).toEqual([
    [40, 45, 0, 2, 2, 0, 0, 1],
    ...cells.slice(2),
  ]);
});

test('what stays whole is not joined with what does not', () => {
  const part: readonly OverviewCell[] = [
    [40, 42, 0, 2, 2, 0, 0, 0],
    [43, 45, 0, 2, 1, 0, 0, 0],
  ];
  expect(joinedCells(part, tellAlike, lists())).toEqual(part);
});

test('cells of one state become one, with the reasons of both', () => {
  const reasons = lists();
  expect(joinedCells(cells, ofOneState, reasons)).toEqual([
    [40, 48, 0, 2, 2, 2, 0, 1],
    ...cells.slice(3),
  ]);
  expect(reasons.all).toEqual([['played'], ['headroom'], ['headroom', 'played']]);
});

test('by the octave a place is what the best of its keys is', () => {
  const reasons = lists();
  expect(octaveCells(cells, reasons)).toEqual([
    [40, 47, 0, 2, 2, 2, 0, 1],
    [48, 59, 0, 4, 4, 1, 0, 0],
    [60, 60, 2, 4, 4, 1, 0, 0],
  ]);
});

test('layers together have the zones of all', () => {
  const loud: readonly OverviewCell[] = [[36, 47, 3, 5, 0, -1, 0, 0]];
  const soft: readonly OverviewCell[] = [[40, 45, 0, 3, 3, 0, 0, 0]];
  expect(layersTogether([loud, soft], lists())).toEqual([[36, 47, 0, 8, 3, 0, 0, 0]]);
});
