import { csvCell, defused } from '../notation/csv-cell.ts';
import { printable } from '../terms/printable.ts';

/** What stands in a cell; null is an empty one. */
export type CsvValue = string | number | null;

/** Between several values in one cell. */
export const listed = (values: Iterable<string | number>): string => [...values].join('; ');

/**
 * A range as a cell holds it: `36-40` would be fine, but `3-4` is a date to a spreadsheet.
 *
 * @example span([36, 40]) // '36 to 40'
 */
export const span = ([lo, hi]: readonly [number, number]): string =>
  lo === hi ? String(lo) : `${String(lo)} to ${String(hi)}`;

const textOf = (value: CsvValue): string => {
  if (value === null) return '';
  if (typeof value === 'string') return printable(defused(value));
  if (Number.isFinite(value)) return String(value);
  throw new RangeError(`a table can not hold ${String(value)}`);
};

const cell = (value: CsvValue): string => csvCell(textOf(value), ',');

/** A line with one empty cell would be an empty line, which readers skip. */
const line = (values: readonly CsvValue[]): string => {
  const cells = values.map(cell).join(',');
  return `${cells === '' ? '""' : cells}\r\n`;
};

/**
 * A table as comma-separated values (RFC 4180): a line for the headings and for each row, each ended
 * by CR LF. Texts from files do nothing where the table is opened: what would be a formula is led by
 * an apostrophe, and control characters, ends of lines too, are written out. Numbers are as they are,
 * with a point.
 *
 * @param rows each as long as `header`
 * @throws RangeError on a number that is not finite, or a row of another length: a fault of this program
 */
export const csvText = (
  header: readonly string[],
  rows: readonly (readonly CsvValue[])[],
): string => {
  const odd = rows.findIndex(({ length }) => length !== header.length);
  if (odd >= 0) throw new RangeError(`row ${String(odd + 1)} does not fit its headings`);
  return [header, ...rows].map(line).join('');
};
