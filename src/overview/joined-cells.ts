import type { OverviewCell } from './overview-map.ts';
import type { ReasonLists } from './reason-lists.ts';

/** Whether two cells beside each other may become one. */
export type Alike = (a: OverviewCell, b: OverviewCell) => boolean;

/** They tell the same but for how many zones they have. What stays whole is not joined with what does not. */
export const tellAlike: Alike = (a, b) =>
  a[2] === b[2] && a[5] === b[5] && (a[3] === a[4]) === (b[3] === b[4]);

/** They are of one state, whatever keeps them. */
export const ofOneState: Alike = (a, b) => a[2] === b[2];

/** Cells beside each other that are alike become one. */
export const joinedCells = (
  cells: readonly OverviewCell[],
  isAlike: Alike,
  reasons: ReasonLists,
): readonly OverviewCell[] => {
  const joined: OverviewCell[] = [];
  for (const cell of cells) {
    const last = joined.at(-1);
    if (last?.[1] === cell[0] - 1 && isAlike(last, cell)) {
      joined[joined.length - 1] = together(last, cell, Math.max, reasons);
    } else joined.push(cell);
  }
  return joined;
};

/** Cells by the octave: its state is the first that any key of it has. */
export const octaveCells = (
  cells: readonly OverviewCell[],
  reasons: ReasonLists,
): readonly OverviewCell[] => {
  const octaves = new Map<number, OverviewCell>();
  for (const whole of cells) {
    for (let lo = whole[0]; lo <= whole[1]; lo += 12 - (lo % 12)) {
      const octave = Math.floor(lo / 12);
      const hi = Math.min(whole[1], octave * 12 + 11);
      const cell: OverviewCell = [lo, hi, ...tail(whole)];
      const known = octaves.get(octave);
      octaves.set(octave, known === undefined ? cell : together(known, cell, Math.max, reasons));
    }
  }
  return [...octaves.values()];
};

/** The cells of several layers, by the octave already, in one row: their zones are added. */
export const layersTogether = (
  rows: readonly (readonly OverviewCell[])[],
  reasons: ReasonLists,
): readonly OverviewCell[] => {
  const octaves = new Map<number, OverviewCell>();
  for (const cell of rows.flat()) {
    const octave = Math.floor(cell[0] / 12);
    const known = octaves.get(octave);
    const sum = (a: number, b: number): number => a + b;
    octaves.set(octave, known === undefined ? cell : together(known, cell, sum, reasons));
  }
  return [...octaves.values()].sort((a, b) => a[0] - b[0]);
};

const tail = ([, , state, zones, kept, reasons, witness, witnesses]: OverviewCell) =>
  [state, zones, kept, reasons, witness, witnesses] as const;

const together = (
  a: OverviewCell,
  b: OverviewCell,
  count: (a: number, b: number) => number,
  reasons: ReasonLists,
): OverviewCell => [
  Math.min(a[0], b[0]),
  Math.max(a[1], b[1]),
  Math.min(a[2], b[2]),
  count(a[3], b[3]),
  count(a[4], b[4]),
  reasons.both(a[5], b[5]),
  ...(a[7] > 0 ? ([a[6], a[7]] as const) : ([b[6], b[7]] as const)),
];
