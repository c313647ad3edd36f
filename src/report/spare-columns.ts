import type { Cell } from './cell.ts';
import type { Look } from './look.ts';
import { layOut, type Column, type Row, type Table } from './table.ts';

/** A column that no other gives room for: good to know, not needed to act. It has a `leaveOut` above all others. */
export interface SpareColumn extends Column {
  readonly spare?: true;
}

const isEmpty = ({ whole }: Cell): boolean => whole === '';

const only = (rows: readonly Row[], which: readonly boolean[]): readonly Row[] =>
  rows.map((row) => (row === 'rule' ? row : row.filter((_, i) => which[i])));

/**
 * Lays a table out, with those of its spare columns that say anything and for which neither the names
 * in the first column have to be cut nor another column left out.
 *
 * @param names columns of the terminal that the longest of those names takes
 */
export const layOutWithSpare = (
  all: readonly SpareColumn[],
  allRows: readonly Row[],
  look: Look,
  names: number,
): Table => {
  const used = all.map(
    ({ spare }, i) => spare !== true || allRows.some((row) => row !== 'rule' && !isEmpty(row[i]!)),
  );
  const columns = all.filter((_, i) => used[i]);
  const rows = only(allRows, used);
  const spare = columns.filter((column) => column.spare === true);
  if (look.width === null || spare.length === 0) return layOut(columns, rows, look);
  const generous = layOut(
    columns.map((column, i) =>
      i === 0 ? { ...column, min: Math.max(names, column.min ?? 0) } : column,
    ),
    rows,
    look,
  );
  // They are the first to go: fewer of them gone than there are means that nothing else is.
  if (generous.leftOut.length < spare.length) return generous;
  const bare = layOut(
    columns.filter((column) => column.spare !== true),
    only(
      rows,
      columns.map((column) => column.spare !== true),
    ),
    look,
  );
  const gone = spare.map(({ title }) => title.join(' ').toLowerCase());
  return { text: bare.text, leftOut: [...gone, ...bare.leftOut] };
};
