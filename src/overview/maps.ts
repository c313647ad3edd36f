import type { Instrument } from '../instruments/instrument.ts';
import type { KeyMapCell } from '../keep/key-map/key-map.ts';
import { zonedKeyMap, type ZonedKeyMap } from '../keep/key-map/make-key-map.ts';
import type { Plan, Reason, Witness } from '../keep/plan.ts';
import { cellWitnesses, type ToldWitness } from './cell-witnesses.ts';
import { IndexTable } from './index-table.ts';
import {
  cellStates,
  type CellWitness,
  type OverviewCell,
  type OverviewRow,
} from './overview-map.ts';

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
}

/** Draws the maps, each cell with its first witnesses. */
export const overviewMaps = (
  plan: Plan,
  instruments: ReadonlyMap<string, Instrument>,
): MadeMaps => {
  const cues = new Map(plan.cues.map(({ id }, i) => [id, i]));
  const tracks = new IndexTable<string | null>();
  const reasons = new IndexTable<readonly Reason[]>();
  const tell = (witness: Witness): ToldWitness => ({
    cue: cues.get(witness.cue)!,
    track: witness.trackName,
    bar: witness.bar,
    beat: witness.beat,
    key: witness.key,
    velocity: witness.velocity,
  });
  const maps = plan.instruments.map((own): MadeMap => {
    const instrument = instruments.get(own.id)!;
    const map = zonedKeyMap(instrument, own);
    const list = new WitnessList(tracks);
    const rows = map.articulations.map((articulation) =>
      articulation.rows.map((row): OverviewRow => {
        const { velocity, controllers, event, zones, zonesKept, members, cells } = row;
        const shown = cellWitnesses(instrument.program, members, cells, tell);
        return {
          ...{ velocity, controllers, event, zones },
          zonesKept: zonesKept ?? 0,
          cells: cells.map((cell, c) => cellOf(cell, reasons, list.place(shown[c] ?? []))),
        };
      }),
    );
    return { map, rows, witnesses: list.all };
  });
  return { maps, tracks: tracks.values, reasons: reasons.values };
};

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
