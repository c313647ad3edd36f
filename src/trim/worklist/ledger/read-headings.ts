import type { CsvRow } from '../../../notation/csv.ts';
import { undefused } from '../../../notation/csv-cell.ts';
import { shortened } from '../../../notation/document/shortened.ts';
import { fold } from '../../../notation/fold.ts';
import { nearest } from '../../../notation/nearest.ts';
import { finding, type Finding } from '../../../terms/finding.ts';
import { ledgerColumns, type LedgerColumn } from './ledger.ts';

/** The columns of a record. */
export interface LedgerHeadings {
  readonly headings: readonly string[];
  readonly places: ReadonlyMap<LedgerColumn, number>;
  readonly problems: readonly Finding[];
}

/** Without these nobody knows what was done; the others are added where they are not there. */
const needed: readonly LedgerColumn[] = ['number', 'action', 'done'];

/** Finds the columns: headings are compared folded. Columns of others are kept as they are. */
export const readLedgerHeadings = ({ cells, line }: CsvRow, file: string): LedgerHeadings => {
  const problems: Finding[] = [];
  const places = new Map<LedgerColumn, number>();
  const width = cells.findLastIndex(({ text }) => text.trim() !== '') + 1;
  const headings = cells.slice(0, width).map(({ text }) => undefused(text));
  headings.forEach((heading, i) => {
    const column = ledgerColumns.find((each) => each === fold(heading));
    if (column === undefined) return;
    if (!places.has(column)) {
      places.set(column, i);
      return;
    }
    const at = { line: cells[i]!.line, column: cells[i]!.column };
    problems.push(finding('error', 'ledger-column-twice', file, { column }, at));
  });
  const strangers = headings
    .filter((heading) => !ledgerColumns.some((each) => each === fold(heading)))
    .slice(0, 20)
    .map(shortened);
  for (const column of needed) {
    if (places.has(column)) continue;
    const args = { column, near: nearest(column, strangers) };
    problems.push(finding('error', 'ledger-column-missing', file, args, { line, column: 1 }));
  }
  for (const column of ledgerColumns) {
    if (places.has(column) || needed.includes(column)) continue;
    places.set(column, headings.length);
    headings.push(column);
  }
  return { headings, places, problems };
};
