import { parseBytes } from '../../notation/bytes.ts';
import { readCsv, type CsvRow, type CsvTable } from '../../notation/csv.ts';
import { nearest } from '../../notation/nearest.ts';
import { shortened } from '../../notation/document/shortened.ts';
import { InputError } from '../../terms/errors.ts';
import { finding, type Finding, type Place } from '../../terms/finding.ts';
import { finderOf } from './find-named.ts';
import { readLoadedHeadings, type LoadedColumn, type LoadedHeadings } from './loaded-columns.ts';

/** An instrument that a table may name, with its copies. */
export interface Readable {
  readonly id: string;
  readonly copies: readonly string[];
}

/** What a player showed. */
export interface LoadedReading {
  readonly instrument: string;
  /** null: all copies of the instrument together. */
  readonly copy: string | null;
  readonly bytes: number;
  readonly at: Place;
}

export interface LoadedTable {
  /** In file order. */
  readonly rows: readonly LoadedReading[];
  /** Warnings. */
  readonly findings: readonly Finding[];
}

/** Errors that are listed; the rest are counted. */
const mostErrors = 100;

/**
 * Reads a table of what players show: columns `instrument`, `loaded` (an amount of memory with its unit)
 * and, where one copy was read, `copy`. Cells are divided as in any table (`readCsv`); headings and names
 * are compared folded, a name as it stands before one that is only alike.
 *
 * @param instruments those there are; a row must name one of them
 * @throws {InputError} with all faults of the table, `loaded-...`, each with line and column
 */
export const readLoaded = (
  bytes: Uint8Array,
  file: string,
  instruments: readonly Readable[],
): LoadedTable => {
  const table = readCsv(bytes);
  if ('problem' in table) {
    const { problem, line, column } = table;
    throw new InputError(
      finding('error', 'loaded-unreadable', file, { problem }, { line, column }),
    );
  }
  const { rows, problems } = readRows(table, file, instruments);
  const [first, ...others] = problems.filter(({ severity }) => severity === 'error');
  if (first === undefined) return { rows, findings: problems };
  const more = others.length + 1 - mostErrors;
  throw new InputError(first, [
    ...others.slice(0, mostErrors - 1),
    ...(more > 0 ? [finding('error', 'loaded-more-errors', file, { more })] : []),
    // A heading that is not known may tell why another is missing.
    ...problems.filter(({ severity }) => severity !== 'error'),
  ]);
};

interface Found {
  readonly rows: readonly LoadedReading[];
  readonly problems: readonly Finding[];
}

const readRows = (
  { rows: [heading, ...others], decimalComma }: CsvTable,
  file: string,
  instruments: readonly Readable[],
): Found => {
  if (heading === undefined) {
    return { rows: [], problems: [finding('error', 'loaded-empty', file, {})] };
  }
  const headings = readLoadedHeadings(heading, file);
  const problems = [...headings.problems];
  // Without its headings each row would only say the same again.
  if (problems.some(({ severity }) => severity === 'error')) return { rows: [], problems };
  if (others.length === 0) problems.push(finding('error', 'loaded-empty', file, {}));
  const find = finderOf(instruments, ({ id }) => id);
  const rows: LoadedReading[] = [];
  const seen = new Set<string>();
  for (const row of others) {
    const read = readRow(row, headings, decimalComma, file, find, instruments);
    if (Array.isArray(read)) {
      problems.push(...(read as readonly Finding[]));
      continue;
    }
    const { instrument, copy, at } = read as LoadedReading;
    const key = JSON.stringify([instrument, copy]);
    if (seen.has(key)) {
      problems.push(finding('error', 'loaded-twice', file, { instrument, copy }, at));
    }
    seen.add(key);
    rows.push(read as LoadedReading);
  }
  return { rows, problems };
};

const readRow = (
  { cells, line }: CsvRow,
  { places, width }: LoadedHeadings,
  decimalComma: boolean,
  file: string,
  find: (name: string) => Readable | null,
  instruments: readonly Readable[],
): LoadedReading | readonly Finding[] => {
  const at = (index: number): Place => {
    const cell = cells[index];
    return { line: cell?.line ?? line, column: cell?.column ?? 1 };
  };
  const placeOf = (column: LoadedColumn): Place => at(places.get(column) ?? -1);
  const textOf = (column: LoadedColumn): string =>
    cells[places.get(column) ?? -1]?.text.trim() ?? '';

  const beyond = cells.findIndex(({ text }, index) => index >= width && text.trim() !== '');
  if (beyond >= 0) {
    const args = { cells: cells.length, columns: width };
    return [finding('error', 'loaded-row-long', file, args, at(beyond))];
  }
  const problems: Finding[] = [];
  const [wanted, wantedCopy] = [textOf('instrument'), textOf('copy')];
  const instrument = find(wanted);
  if (instrument === null) {
    const near = nearest(
      wanted,
      instruments.map(({ id }) => id),
    );
    const args = { instrument: shortened(wanted), near };
    problems.push(finding('error', 'loaded-instrument', file, args, placeOf('instrument')));
  }
  const copy = wantedCopy === '' || instrument === null ? null : findCopy(instrument, wantedCopy);
  if (wantedCopy !== '' && instrument !== null && copy === null) {
    const near = nearest(wantedCopy, instrument.copies);
    const args = { instrument: instrument.id, copy: shortened(wantedCopy), near };
    problems.push(finding('error', 'loaded-copy', file, args, placeOf('copy')));
  }
  const text = textOf('loaded');
  const bytes = parseBytes(text, decimalComma);
  if (bytes === null) {
    const args = { text: shortened(text) };
    problems.push(finding('error', 'loaded-amount', file, args, placeOf('loaded')));
  }
  if (problems.length > 0 || instrument === null || bytes === null) return problems;
  return { instrument: instrument.id, copy, bytes, at: placeOf('instrument') };
};

const findCopy = ({ copies }: Readable, wanted: string): string | null =>
  finderOf(copies, (name) => name)(wanted);
