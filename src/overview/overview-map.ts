import type { CellState, KeyMapRow } from '../keep/key-map/key-map.ts';

export interface OverviewRow extends Pick<
  KeyMapRow,
  'velocity' | 'controllers' | 'event' | 'zones'
> {
  readonly zonesKept: number;
  readonly cells: readonly OverviewCell[];
}

/** States in the order in which a cell gives them by number. */
export const cellStates: readonly CellState[] = ['kept', 'doubtful', 'spare', 'dropped'];

/**
 * [lowest key, highest key, state, zones, zones kept, reasons, first witness, witnesses]: `state` is an
 * index into {@link cellStates}, `reasons` into `reasons` (-1: dropped), witnesses are so many of the
 * instrument's from the first on.
 */
export type OverviewCell = readonly [
  lo: number,
  hi: number,
  state: number,
  zones: number,
  kept: number,
  reasons: number,
  witness: number,
  witnesses: number,
];

/** [cue, track, bar, beat, key, velocity]; a cue is an index into `cues`, a track into `tracks`. */
export type CellWitness = readonly [
  cue: number,
  track: number,
  bar: number,
  beat: number,
  key: number | null,
  velocity: number | null,
];
