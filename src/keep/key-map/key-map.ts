import type { Range } from '../../terms/range.ts';
import type { Reason } from '../plan.ts';

/**
 * Which keys of which layer of an instrument there are, and what a plan says of each: the map that
 * `inspect`, `why` and `report` draw. Keys from left to right, layers as rows.
 */
export interface KeyMap {
  /** From the lowest key that starts anything to the highest; null: no key starts anything. */
  readonly keys: Range | null;
  /** In the order of the instrument; those without zones left out. */
  readonly articulations: readonly KeyMapArticulation[];
}

export interface KeyMapArticulation {
  /** Index into the articulations of the instrument. */
  readonly articulation: number;
  readonly name: string;
  readonly switch: string | null;
  /** Those that notes start first, then by their ranges, the loudest first. */
  readonly rows: readonly KeyMapRow[];
}

/** The zones of a layer that one kind of event starts. */
export interface KeyMapRow {
  readonly velocity: Range;
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
  /** `note`: a key goes down; `release`: it goes up, or another takes over; `change`: a message alone. */
  readonly event: 'note' | 'release' | 'change';
  readonly zones: number;
  /** null without a plan. */
  readonly zonesKept: number | null;
  /** Ascending, apart; two beside each other differ in something that a cell tells. */
  readonly cells: readonly KeyMapCell[];
}

/**
 * What became of the zones of a cell: `kept`, some note reaches one of them plainly; `doubtful`, notes
 * reach them only through a doubt; `spare`, kept without a note (headroom, a pin, a partner, a silent
 * starter, a unit of the player); `dropped`, none stays. The first of them that fits.
 */
export type CellState = 'kept' | 'doubtful' | 'spare' | 'dropped';

/** Keys beside each other at which the same zones start. */
export interface KeyMapCell {
  readonly keys: Range;
  /** Zones: takes and microphones of one key count each. */
  readonly zones: number;
  /** null without a plan. */
  readonly kept: number | null;
  readonly state: CellState | null;
  /** Those of its kept zones, each once. */
  readonly reasons: readonly Reason[];
}
