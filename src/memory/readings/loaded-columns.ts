import type { CsvCell, CsvRow } from '../../notation/csv.ts';
import { fold } from '../../notation/fold.ts';
import { nearest } from '../../notation/nearest.ts';
import { shortened } from '../../notation/document/shortened.ts';
import { finding, type Finding } from '../../terms/finding.ts';

export const loadedColumns = ['instrument', 'loaded', 'copy'] as const;

export type LoadedColumn = (typeof loadedColumns)[number];

/** Columns that nobody knows are told of up to here. */
const mostTold = 20;

/** Where the columns of a table of readings are, by its headings. */
export interface LoadedHeadings {
  readonly places: ReadonlyMap<LoadedColumn, number>;
  /** Cells up to the last heading. */
  readonly width: number;
  readonly problems: readonly Finding[];
}

/** Finds the columns: headings are compared folded. `copy` may be missing. */
export const readLoadedHeadings = ({ cells, line }: CsvRow, file: string): LoadedHeadings => {
  const problems: Finding[] = [];
  const places = new Map<LoadedColumn, number>();
  const strangers: CsvCell[] = [];
  cells.forEach((cell, index) => {
    const heading = fold(cell.text);
    const column = loadedColumns.find((each) => each === heading);
    if (heading === '') return;
    if (column === undefined) strangers.push(cell);
    else if (places.has(column)) {
      problems.push(finding('error', 'loaded-column-twice', file, { column }, placeOf(cell)));
    } else places.set(column, index);
  });
  const told = strangers.slice(0, mostTold);
  for (const column of ['instrument', 'loaded'] as const) {
    if (places.has(column)) continue;
    const near = nearest(
      column,
      told.map(({ text }) => shortened(text)),
    );
    const at = { line, column: 1 };
    problems.push(finding('error', 'loaded-column-missing', file, { column, near }, at));
  }
  const free = loadedColumns.filter((column) => !places.has(column));
  for (const cell of told) {
    const args = { column: shortened(cell.text), near: nearest(cell.text, free) };
    problems.push(finding('warning', 'loaded-column-unknown', file, args, placeOf(cell)));
  }
  const width = cells.findLastIndex(({ text }) => text.trim() !== '') + 1;
  return { places, width, problems };
};

const placeOf = ({
  line,
  column,
}: CsvCell): { readonly line: number; readonly column: number } => ({
  line,
  column,
});
