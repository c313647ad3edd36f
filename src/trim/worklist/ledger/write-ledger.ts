import { csvCell, defused } from '../../../notation/csv-cell.ts';
import { fold } from '../../../notation/fold.ts';
import { writeActionKey } from '../action-key.ts';
import { stateNamed, stateWords, type Ledger, type LedgerEntry } from './ledger.ts';

/**
 * The record as a table (RFC 4180), divided as it was. What a person wrote stays as it is, but for a
 * leading apostrophe where a spreadsheet would reckon. With a byte order mark where there is more than
 * ASCII: without one spreadsheets take it for another encoding.
 */
export const writeLedger = ({ delimiter, headings, places, entries }: Ledger): string => {
  const line = (cells: readonly string[]): string =>
    `${cells.map((text) => csvCell(defused(text), delimiter, true)).join(delimiter)}\r\n`;
  const rows = entries.map((entry) => {
    const cells = headings.map((_, i) => entry.cells[i] ?? '');
    cells[places.get('number')!] = String(entry.number);
    cells[places.get('action')!] = writeActionKey(entry.key);
    cells[places.get('done')!] = doneText(entry, cells[places.get('done')!]!);
    return line(cells);
  });
  const text = line(headings) + rows.join('');
  return /[^\0-\x7f]/u.test(text) ? `\ufeff${text}` : text;
};

/** As a person ticked it, while that says the same. */
const doneText = ({ state }: LedgerEntry, written: string): string =>
  stateNamed(fold(written)) === state ? written : stateWords[state];
