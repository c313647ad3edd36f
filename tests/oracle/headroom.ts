/**
 * Room around what was played: each note counts as well for the keys and velocities next to it,
 * under the very switches that were in force for it. Switches are not widened.
 */
import {
  minimalSets,
  startedUnder,
  startsOf,
  switchKeysOf,
  type DoubtNames,
  type TableCopy,
  type TableRow,
  type TableStart,
} from './tables.ts';

export interface Headroom {
  /** Keys up and down. */
  readonly keys: number;
  /** Steps of velocity up and down; never down to 0, which would be a note-off. */
  readonly velocity: number;
}

/** The doubt sets under which each row is reached with headroom; without any it is plain reach. */
export function reachedWithHeadroom(
  rows: readonly TableRow[],
  copies: readonly TableCopy[],
  slackSeconds: number,
  headroom: Headroom,
): DoubtNames[][] {
  const starts = copies
    .flatMap((copy) => startsOf(rows, copy, slackSeconds))
    .flatMap((start) => (onlySwitches(rows, start) ? [start] : widened(start, headroom)));
  return rows.map((row) => minimalSets(starts.flatMap((start) => startedUnder(row, start))));
}

/** A switch that no row plays is no music: what lies next to it was not played nearly. */
function onlySwitches(rows: readonly TableRow[], { key }: TableStart): boolean {
  const plays = rows.some(({ keys: [lowest, highest] }) => lowest <= key && key <= highest);
  return switchKeysOf(rows).includes(key) && !plays;
}

function widened(start: TableStart, headroom: Headroom): TableStart[] {
  const starts: TableStart[] = [];
  for (let key = 0; key <= 127; key++) {
    for (let velocity = 1; velocity <= 127; velocity++) {
      if (Math.abs(key - start.key) > headroom.keys) continue;
      if (Math.abs(velocity - start.velocity) > headroom.velocity) continue;
      starts.push({ ...start, key, velocity });
    }
  }
  return starts;
}
