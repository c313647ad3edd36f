import { parseByteCount } from '../../../notation/bytes.ts';
import { readCsv, type CsvRow, type CsvTable } from '../../../notation/csv.ts';
import { undefused } from '../../../notation/csv-cell.ts';
import { shortened } from '../../../notation/document/shortened.ts';
import { fold } from '../../../notation/fold.ts';
import { tidy } from '../../../notation/tidy.ts';
import { InputError } from '../../../terms/errors.ts';
import { finding, type Finding, type FindingArgs, type Place } from '../../../terms/finding.ts';
import type { LedgerFaults } from '../../../terms/findings/worklists.ts';
import { parseActionKey } from '../action-key.ts';
import { largestNumber, stateNamed, type Ledger, type LedgerColumn } from './ledger.ts';
import type { LedgerEntry } from './ledger.ts';
import { readLedgerHeadings, type LedgerHeadings } from './read-headings.ts';

/** Errors that are listed; the rest are counted. */
const mostErrors = 100;

/**
 * Reads the record of a worklist: a table with the columns `number`, `action` and `done`, in any order,
 * and where they are there `bytes` and `note`. Cells are divided as in any table (`readCsv`).
 *
 * @throws {InputError} with all faults of the table, `ledger-...`, each with line and column
 */
export const readLedger = (bytes: Uint8Array, file: string): Ledger => {
  const table = readCsv(bytes);
  if ('problem' in table) {
    const { problem, line, column } = table;
    throw new InputError(
      finding('error', 'ledger-unreadable', file, { problem }, { line, column }),
    );
  }
  const [heading, ...rows] = table.rows;
  if (heading === undefined) throw new InputError(finding('error', 'ledger-empty', file, {}));
  const headings = readLedgerHeadings(heading, file);
  const problems = [...headings.problems];
  // Without its headings each row would only say the same again.
  const entries = problems.length > 0 ? [] : readRows(rows, table, headings, file, problems);
  const [first, ...others] = problems;
  if (first !== undefined) {
    const more = problems.length - mostErrors;
    throw new InputError(first, [
      ...others.slice(0, mostErrors - 1),
      ...(more > 0 ? [finding('error', 'ledger-more-errors', file, { more })] : []),
    ]);
  }
  const { headings: names, places } = headings;
  return { delimiter: table.delimiter, headings: names, places, entries };
};

const readRows = (
  rows: readonly CsvRow[],
  { decimalComma }: CsvTable,
  { headings, places }: LedgerHeadings,
  file: string,
  problems: Finding[],
): readonly LedgerEntry[] => {
  const seen = new Map<number, number>();
  return rows.flatMap(({ line, cells }): readonly LedgerEntry[] => {
    const before = problems.length;
    const at = (index: number): Place => {
      const cell = cells[index];
      return { line: cell?.line ?? line, column: cell?.column ?? 1 };
    };
    const placeOf = (column: LedgerColumn): Place => at(places.get(column)!);
    const textOf = (column: LedgerColumn): string =>
      undefused(cells[places.get(column)!]?.text ?? '');
    const fault = <Code extends keyof LedgerFaults>(
      code: Code,
      args: FindingArgs[Code],
      place: Place,
    ): void => {
      problems.push(finding('error', code, file, args, place));
    };

    const beyond = cells.findIndex(({ text }, i) => i >= headings.length && text.trim() !== '');
    if (beyond >= 0) {
      const args = { cells: cells.length, columns: headings.length };
      fault('ledger-row-long', args, at(beyond));
    }
    const number = numberOf(textOf('number'));
    if (number === null) {
      fault('ledger-number', { text: shortened(textOf('number')) }, placeOf('number'));
    } else if (seen.has(number)) {
      fault('ledger-number-twice', { number, line: seen.get(number)! }, placeOf('number'));
    } else seen.set(number, line);
    const key = parseActionKey(textOf('action'));
    if (key === null) {
      fault('ledger-action', { text: shortened(textOf('action')) }, placeOf('action'));
    }
    const state = stateNamed(fold(textOf('done')));
    if (state === null) {
      fault('ledger-done', { text: shortened(textOf('done')) }, placeOf('done'));
    }
    const amount = textOf('bytes').trim();
    const shown = amount === '' ? null : parseByteCount(amount, decimalComma);
    if (amount !== '' && shown === null) {
      fault('ledger-bytes', { text: shortened(amount) }, placeOf('bytes'));
    }
    if (problems.length > before || number === null || key === null || state === null) return [];
    const all = cells.slice(0, headings.length).map(({ text }) => undefused(text));
    const note = textOf('note');
    return [{ number, key, state, seen: shown, note, cells: all, at: placeOf('number') }];
  });
};

const numberOf = (text: string): number | null => {
  const tidied = tidy(text);
  const number = /^\d{1,9}$/u.test(tidied) ? Number(tidied) : 0;
  return number >= 1 && number <= largestNumber ? number : null;
};
