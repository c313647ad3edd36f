import type { DiffInstrument, DiffPlace, DiffZone } from '../keep/compare/diff.ts';
import { toRanges, type Range } from '../terms/range.ts';

/** Zones of an instrument that a person loads or unloads in one go. */
export interface DiffRow {
  readonly action: 'load' | 'unload';
  readonly articulations: readonly string[];
  /** Null where it is not known where the zones lie. */
  readonly keys: readonly Range[] | null;
  readonly layer: Omit<DiffPlace, 'keys'> | null;
  readonly zones: readonly DiffZone[];
  /** Names of the copies; null: all alike. */
  readonly copies: readonly (string | null)[];
}

/** The zones of each articulation and layer together, and copies together that do the same. */
export const diffRows = ({ copies }: DiffInstrument): readonly DiffRow[] => {
  const rows = new Map<string, DiffRow>();
  for (const action of ['load', 'unload'] as const) {
    for (const copy of copies) {
      for (const zones of layersOf(copy[action])) {
        const key = JSON.stringify([action, zones.map(({ zone }) => zone)]);
        const before = rows.get(key)?.copies ?? [];
        rows.set(key, { ...rowOf(action, zones), copies: [...before, copy.name] });
      }
    }
  }
  return [...rows.values()];
};

const layersOf = (zones: readonly DiffZone[]): readonly (readonly DiffZone[])[] => {
  const layers = new Map<string, DiffZone[]>();
  for (const zone of zones) {
    const { articulations, place } = zone;
    const key = JSON.stringify([articulations, place?.velocities, place?.controllers]);
    const layer = layers.get(key);
    if (layer === undefined) layers.set(key, [zone]);
    else layer.push(zone);
  }
  return [...layers.values()];
};

const rowOf = (action: DiffRow['action'], zones: readonly DiffZone[]): Omit<DiffRow, 'copies'> => {
  const { articulations, place } = zones[0]!;
  return {
    action,
    articulations,
    zones,
    keys: place === null ? null : keysOf(zones),
    layer: place,
  };
};

const keysOf = (zones: readonly DiffZone[]): readonly Range[] => {
  const all = new Set<number>();
  for (const [lo, hi] of zones.flatMap(({ place }) => place?.keys ?? [])) {
    for (let key = lo; key <= hi; key++) all.add(key);
  }
  return toRanges(all);
};
