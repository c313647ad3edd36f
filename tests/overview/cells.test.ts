import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Reason } from '../../src/keep/plan.ts';
import { zonedKeyMap } from '../../src/keep/key-map/make-key-map.ts';
import { overviewMaps, type MadeMaps } from '../../src/overview/maps.ts';
import { cellStates, type OverviewCell } from '../../src/overview/overview.ts';
import {
  cueIds,
  instrumentOf,
  planOf,
  plannedOf,
  zones,
  type RandomZone,
} from '../keep/key-map/random-instrument.ts';

const made = (list: readonly RandomZone[], budget = 1e9): MadeMaps =>
  overviewMaps(planOf(list), new Map([['horns', instrumentOf(list)]]), budget);

/** The witnesses of a cell as the page tells them. */
const toldOf = ({ maps: [map], tracks }: MadeMaps, cell: OverviewCell) =>
  map!.witnesses
    .slice(cell[6], cell[6] + cell[7])
    .map(([cue, track, ...rest]) => [cue, tracks[track], ...rest]);

const eventOf = ({ event }: RandomZone): string =>
  event === 'note-on' ? 'note' : event === 'change' ? 'change' : 'release';

/** All of a cell's zones asked one by one, and all their notes sorted. */
const naive = (
  list: readonly RandomZone[],
  lo: number,
  hi: number,
): readonly (readonly unknown[])[] => {
  const all = list
    .filter(({ keys, reasons }) => reasons !== null && keys[0] <= hi && keys[1] >= lo)
    .flatMap(({ witnesses }) => witnesses)
    .map((one) => ({
      isHere: one.key !== null && lo <= one.key && one.key <= hi,
      row: [
        cueIds.indexOf(one.cue as (typeof cueIds)[number]),
        one.trackName,
        one.bar,
        one.beat,
        one.key,
        one.velocity,
      ],
    }));
  const rank = ({ isHere, row: [cue, track, bar, beat, key, velocity] }: (typeof all)[number]) => [
    isHere ? 0 : 1,
    ...[cue, bar, beat, key ?? -1, velocity ?? -1].map(Number),
    track === null ? '' : String(track),
  ];
  const sorted = all.sort((a, b) => {
    const [one, two] = [rank(a), rank(b)];
    const at = one.findIndex((value, i) => value !== two[i]);
    return at < 0 ? 0 : one[at]! < two[at]! ? -1 : 1;
  });
  const texts = new Set<string>();
  return sorted
    .map(({ row }) => row)
    .filter((row) => {
      const text = JSON.stringify(row);
      return !texts.has(text) && texts.add(text);
    });
};

test('a cell says what the map says, and its first witnesses are those of its zones', () => {
  fc.assert(
    fc.property(zones, (list) => {
      const maps = made(list);
      const [map] = maps.maps;
      expect(maps.witnessesPerCell).toBe(3);
      const source = zonedKeyMap(instrumentOf(list), plannedOf(list));
      source.articulations.forEach(({ articulation, rows }, a) => {
        rows.forEach((row, r) => {
          const told = map!.rows[a]![r]!;
          expect(told.cells.length).toBe(row.cells.length);
          const members = list.filter(
            (one) =>
              one.articulation === articulation &&
              eventOf(one) === row.event &&
              JSON.stringify([one.velocity, one.controllers]) ===
                JSON.stringify([row.velocity, row.controllers]),
          );
          row.cells.forEach((cell, c) => {
            const one = told.cells[c]!;
            expect(one.slice(0, 5)).toEqual([
              ...cell.keys,
              cellStates.indexOf(cell.state!),
              cell.zones,
              cell.kept,
            ]);
            expect(one[5] === -1 ? [] : maps.reasons[one[5]]).toEqual(cell.reasons);
            expect(toldOf(maps, one)).toEqual(naive(members, ...cell.keys).slice(0, 3));
          });
        });
      });
    }),
  );
});

const sizeOf = ({ maps }: MadeMaps): number =>
  maps.reduce(
    (sum, { rows, witnesses }) =>
      sum + witnesses.length + rows.flat().reduce((cells, row) => cells + row.cells.length, 0),
    0,
  );

test('with less room there are fewer witnesses, then cells are joined; never more than the budget if that is possible', () => {
  const levels = new Set<number>();
  fc.assert(
    fc.property(zones, fc.integer({ min: 0, max: 30 }), (list, budget) => {
      const [full, less] = [made(list), made(list, budget)];
      levels.add(less.witnessesPerCell);
      if (sizeOf(full) <= budget) {
        expect(less).toEqual(full);
        return;
      }
      expect(less.witnessesPerCell).toBeLessThan(3);
      if (less.witnessesPerCell > 0) expect(sizeOf(less)).toBeLessThanOrEqual(budget);
      less.maps[0]!.rows.flat().forEach((row, r) => {
        const before = full.maps[0]!.rows.flat()[r]!;
        expect({ ...row, cells: [] }).toEqual({ ...before, cells: [] });
        for (const [lo, hi, state, count, kept, reasons, , witnesses] of row.cells) {
          expect(witnesses).toBeLessThanOrEqual(less.witnessesPerCell);
          // What a joined cell says holds for each that went into it.
          const inside = before.cells.filter((cell) => cell[0] <= hi && cell[1] >= lo);
          expect([inside[0]![0], inside.at(-1)![1]]).toEqual([lo, hi]);
          expect(count).toBe(Math.max(...inside.map((cell) => cell[3])));
          expect(kept).toBe(Math.max(...inside.map((cell) => cell[4])));
          for (const cell of inside) {
            expect(cell[2]).toBe(state);
            expect(cell[5] === -1 ? [] : full.reasons[cell[5]]).toEqual(
              reasons === -1 ? [] : less.reasons[reasons],
            );
            expect(cell[3] === cell[4]).toBe(count === kept);
          }
        }
      });
    }),
    { seed: 11, numRuns: 300 },
  );
  expect([...levels].sort()).toEqual([0, 1, 3]);
});

test('cells that differ only in how many zones they have are joined when room is short', () => {
  const zone = (
    keys: readonly [number, number],
    reasons: readonly Reason[] | null,
  ): RandomZone => ({
    ...{ articulation: 0, keys, velocity: [1, 127], controllers: [], event: 'note-on' },
    ...{ reasons, witnesses: [] },
  });
  const list = [
    zone([40, 45], ['played']),
    zone([40, 42], ['played']),
    zone([46, 48], ['grain']),
    zone([49, 50], null),
  ];
  const cellsOf = (budget: number) =>
    made(list, budget).maps[0]!.rows[0]![0]!.cells.map((cell) => cell.slice(0, 5));
  expect(cellsOf(4)).toEqual([
    [40, 42, 0, 2, 2],
    [43, 45, 0, 1, 1],
    [46, 48, 2, 1, 1],
    [49, 50, 3, 1, 0],
  ]);
  expect(cellsOf(3)).toEqual([
    [40, 45, 0, 2, 2],
    [46, 48, 2, 1, 1],
    [49, 50, 3, 1, 0],
  ]);
});
