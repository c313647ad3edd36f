import type { Instrument } from '../instruments/instrument.ts';
import type { KeyMapCell } from '../keep/key-map/key-map.ts';
import {
  zonedKeyMap,
  type ZonedKeyMap,
  type ZonedKeyMapRow,
} from '../keep/key-map/make-key-map.ts';
import type { Plan, Reason } from '../keep/plan.ts';
import { cellWitnesses, mostWitnesses, type ToldWitness } from './cell-witnesses.ts';
import { IndexTable } from './index-table.ts';
import { joinedCells } from './joined-cells.ts';
import { cellStates, type CellWitness, type OverviewCell, type OverviewRow } from './overview.ts';

/** The map of one instrument as the page has it. */
export interface MadeMap {
  readonly map: ZonedKeyMap;
  /** By articulation of `map`, by row. */
  readonly rows: readonly (readonly OverviewRow[])[];
  readonly witnesses: readonly CellWitness[];
}

/** The maps of all instruments, and what they refer to. */
export interface MadeMaps {
  readonly maps: readonly MadeMap[];
  readonly tracks: readonly (string | null)[];
  readonly reasons: readonly (readonly Reason[])[];
  readonly witnessesPerCell: number;
}

/** How closely the maps are told, the closest first. */
const ways: readonly { readonly witnesses: number; readonly joins: boolean }[] = [
  { witnesses: mostWitnesses, joins: false },
  { witnesses: 1, joins: false },
  { witnesses: 1, joins: true },
  { witnesses: 0, joins: false },
  { witnesses: 0, joins: true },
];

/**
 * Draws the maps as closely as the budget allows.
 *
 * @param budget cells and witnesses of all maps together; the last of the ways is taken whatever it has
 */
export const overviewMaps = (
  plan: Plan,
  instruments: ReadonlyMap<string, Instrument>,
  budget: number,
): MadeMaps => {
  const cues = new Map(plan.cues.map(({ id }, i) => [id, i]));
  const maps = plan.instruments.map((own) => zonedKeyMap(instruments.get(own.id)!, own));
  const told = [false, true].map(
    () => new Map<ZonedKeyMapRow, readonly (readonly ToldWitness[])[]>(),
  );
  const witnessesOf = (instrument: Instrument, row: ZonedKeyMapRow, joins: boolean) => {
    const known = told[Number(joins)]!;
    let found = known.get(row);
    if (found === undefined) {
      found = cellWitnesses(instrument.program, row.members, cellsOf(row, joins), (witness) => ({
        cue: cues.get(witness.cue)!,
        track: witness.trackName,
        bar: witness.bar,
        beat: witness.beat,
        key: witness.key,
        velocity: witness.velocity,
      }));
      known.set(row, found);
    }
    return found;
  };
  const made = ({ witnesses, joins }: (typeof ways)[number]): MadeMaps & { size: number } => {
    const tracks = new IndexTable<string | null>();
    const reasons = new IndexTable<readonly Reason[]>();
    const drawn = maps.map((map, i): MadeMap => {
      const instrument = instruments.get(plan.instruments[i]!.id)!;
      const list = new WitnessList(tracks);
      const rows = map.articulations.map((articulation) =>
        articulation.rows.map((row): OverviewRow => {
          const cells = cellsOf(row, joins);
          const shown = witnesses === 0 ? null : witnessesOf(instrument, row, joins);
          return {
            ...{ velocity: row.velocity, controllers: row.controllers, event: row.event },
            ...{ zones: row.zones, zonesKept: row.zonesKept ?? 0 },
            cells: cells.map((cell, c) =>
              cellOf(cell, reasons, list.place((shown?.[c] ?? []).slice(0, witnesses))),
            ),
          };
        }),
      );
      return { map, rows, witnesses: list.all };
    });
    const size = drawn.reduce(
      (sum, one) =>
        sum +
        one.witnesses.length +
        one.rows.flat().reduce((cells, row) => cells + row.cells.length, 0),
      0,
    );
    return {
      ...{ maps: drawn, tracks: tracks.values, reasons: reasons.values },
      ...{ witnessesPerCell: witnesses, size },
    };
  };
  let last = made(ways[0]!);
  for (const way of ways.slice(1)) {
    if (last.size <= budget) break;
    last = made(way);
  }
  const { maps: drawn, tracks, reasons, witnessesPerCell } = last;
  return { maps: drawn, tracks, reasons, witnessesPerCell };
};

const cellsOf = ({ cells }: ZonedKeyMapRow, joins: boolean): readonly KeyMapCell[] =>
  joins ? joinedCells(cells) : cells;

const cellOf = (
  { keys, zones, kept, state, reasons }: KeyMapCell,
  table: IndexTable<readonly Reason[]>,
  [first, count]: readonly [number, number],
): OverviewCell => [
  ...keys,
  cellStates.indexOf(state!),
  zones,
  kept!,
  reasons.length === 0 ? -1 : table.numberOf(reasons),
  first,
  count,
];

/** Witnesses of an instrument; cells with the same ones share them. */
class WitnessList {
  readonly all: CellWitness[] = [];
  readonly #places = new Map<string, number>();
  readonly #tracks: IndexTable<string | null>;

  constructor(tracks: IndexTable<string | null>) {
    this.#tracks = tracks;
  }

  place(witnesses: readonly ToldWitness[]): readonly [first: number, count: number] {
    if (witnesses.length === 0) return [0, 0];
    const rows = witnesses.map(({ cue, track, bar, beat, key, velocity }): CellWitness => [
      cue,
      this.#tracks.numberOf(track),
      bar,
      beat,
      key,
      velocity,
    ]);
    const text = JSON.stringify(rows);
    let first = this.#places.get(text);
    if (first === undefined) {
      first = this.all.length;
      this.all.push(...rows);
      this.#places.set(text, first);
    }
    return [first, rows.length];
  }
}
