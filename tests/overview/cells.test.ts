import fc from 'fast-check';
import { expect, test } from 'vitest';
import { zonedKeyMap } from '../../src/keep/key-map/make-key-map.ts';
import { overviewMaps, type MadeMaps } from '../../src/overview/maps.ts';
import { cellStates, type OverviewCell } from '../../src/overview/overview-map.ts';
import {
  cueIds,
  instrumentOf,
  planOf,
  plannedOf,
  zones,
  type RandomZone,
} from '../keep/key-map/random-instrument.ts';

const made = (list: readonly RandomZone[]): MadeMaps =>
  overviewMaps(planOf(list), new Map([['horns', instrumentOf(list)]]));

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
