import type { CsvRow, CsvTable } from '../../notation/csv.ts';
import type { ColumnName, Columns } from './columns.ts';
import { listed, shown } from './cell-text.ts';
import type { Faults } from './faults.ts';
import { readRow, type RowDraft } from './row-draft.ts';
import { TableRow } from './table-row.ts';

/** The most zones a table may stand for: ten times a very large section of players. */
const mostZones = 200_000;

/** Names that are repeated for every zone of a row may not be longer, in characters. */
const longestName = 255;
const repeatedNames: readonly ColumnName[] = ['articulation', 'microphone', 'key'];

/**
 * Reads all rows under the headings. Rows that are wrong are left out, with their faults; after a row
 * that makes more zones than there may be, or with as many faults as are gathered, the rest is not
 * read.
 *
 * Faults: `table-cells-beyond`, `table-name-too-long`, `table-too-many-zones`, and those of
 * {@link readRow}.
 */
export const readRows = (
  { rows, decimalComma }: CsvTable,
  columns: Columns,
  middleC: number,
  faults: Faults,
): readonly RowDraft[] => {
  const [heading, ...others] = rows;
  const headings = heading!.cells.findLastIndex(({ text }) => text.trim() !== '') + 1;
  const drafts: RowDraft[] = [];
  let zones = 0;
  for (const csvRow of others) {
    if (faults.isFull) break;
    if (!fits(csvRow, headings, faults)) continue;
    const row = new TableRow(csvRow, columns, faults);
    checkNames(row);
    const draft = readRow(row, { middleC, decimalComma });
    if (draft === null) continue;
    zones += draft.zones;
    if (zones > mostZones) {
      row.fault('table-too-many-zones', 'keys', { zones, limit: mostZones });
      break;
    }
    drafts.push(draft);
  }
  return drafts;
};

/** A cell beyond the last heading: a sign inside one of the cells was taken for the end of it. */
const fits = ({ cells }: CsvRow, headings: number, faults: Faults): boolean => {
  const beyond = cells.slice(headings).find(({ text }) => text.trim() !== '');
  if (beyond === undefined) return true;
  const { text, line, column } = beyond;
  faults.add('table-cells-beyond', { value: shown(text), headings }, { line, column });
  return false;
};

const checkNames = (row: TableRow): void => {
  for (const column of repeatedNames) {
    const text = row.text(column);
    const names = column === 'microphone' ? listed(text) : [text];
    const length = names.find((name) => name.length > longestName)?.length;
    if (length !== undefined) {
      row.fault('table-name-too-long', column, { column, length, limit: longestName });
    }
  }
};
