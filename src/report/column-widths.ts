import type { Cell } from './cell.ts';
import { displayWidth } from './text-width.ts';

export interface Column {
  /** The heading, a line each. */
  readonly title: readonly string[];
  readonly align: 'left' | 'right';
  /** May be narrowed down to this many columns of the terminal, but not below its heading. */
  readonly min?: number;
  /** May be left out where the window is too narrow, the highest first. */
  readonly leaveOut?: number;
}

/** A row of cells, or a rule across the table. */
export type Row = readonly Cell[] | 'rule';

/** A column of a table with the room it has. */
export interface Placed {
  readonly column: Column;
  /** Its place among all columns. */
  readonly index: number;
  readonly width: number;
}

/** Spaces between two columns. */
export const gap = 2;

/** Below this no layout makes sense; the terminal then breaks the lines. */
const narrowest = 36;

const largest = (numbers: readonly number[]): number =>
  numbers.reduce((most, number) => Math.max(most, number), 0);

/** The longest line of a text. */
export const widest = (lines: readonly string[]): number => largest(lines.map(displayWidth));

const total = (columns: readonly Placed[]): number =>
  columns.reduce((sum, { width }) => sum + width, 0) + gap * (columns.length - 1);

/** The room a column really takes when each of its cells has `width`. */
const taken = ({ column, index }: Placed, rows: readonly Row[], width: number): number =>
  largest([
    widest(column.title),
    ...rows.map((row) => (row === 'rule' ? 0 : widest((row[index]?.fit(width) ?? '').split('\n')))),
  ]);

const canGive = ({ column, width }: Placed): boolean =>
  column.min !== undefined && width > Math.max(column.min, widest(column.title));

/** Takes room from the widest columns that can give some; null when it is not enough. */
const narrow = (columns: readonly Placed[], room: number): readonly Placed[] | null => {
  const placed = [...columns];
  for (let excess = total(placed) - room; excess > 0; excess -= 1) {
    const giving = placed.reduce(
      (best, each, i) =>
        canGive(each) && (best === -1 || each.width > (placed[best]?.width ?? 0)) ? i : best,
      -1,
    );
    const giver = placed[giving];
    if (giver === undefined) return null;
    placed[giving] = { ...giver, width: giver.width - 1 };
  }
  return placed;
};

/** Shorter forms leave room: hands it to the columns from the left, as far as they can use it. */
const widen = (
  columns: readonly Placed[],
  rows: readonly Row[],
  room: number,
): readonly Placed[] => {
  const placed = columns.map((each) => ({ ...each, width: taken(each, rows, each.width) }));
  let left = room - total(placed);
  return placed.map((each) => {
    const width = taken(each, rows, each.width + Math.max(left, 0));
    left -= width - each.width;
    return { ...each, width };
  });
};

const lastToGo = (columns: readonly Placed[]): Placed | undefined =>
  [...columns]
    .filter(({ column }) => column.leaveOut !== undefined)
    .sort((a, b) => (b.column.leaveOut ?? 0) - (a.column.leaveOut ?? 0))[0];

/**
 * Finds room for columns in a window: narrows them, and leaves some out where that is not enough.
 *
 * @param width columns of the terminal, or null: then nothing is narrowed
 */
export const placeColumns = (
  columns: readonly Column[],
  rows: readonly Row[],
  width: number | null,
): readonly Placed[] => {
  const natural = columns
    .map((column, index) => ({ column, index, width: Infinity }))
    .map((each) => (width === null ? each : { ...each, width: taken(each, rows, Infinity) }));
  if (width === null) return natural;
  const room = Math.max(width, narrowest);
  let kept: readonly Placed[] = natural;
  for (;;) {
    const fitting = narrow(kept, room);
    if (fitting !== null) return widen(fitting, rows, room);
    const last = lastToGo(kept);
    if (last === undefined) return kept.map((each) => ({ ...each, width: each.column.min ?? 0 }));
    kept = kept.filter((each) => each !== last);
  }
};
