import { largestTable, readCsv, type CsvProblem, type CsvTable } from '../../notation/csv.ts';
import { inputError, type InputError } from '../../terms/errors.ts';

/** How the files of spreadsheet programs begin: a ZIP archive, or a compound file. */
const spreadsheets: readonly (readonly number[])[] = [
  [0x50, 0x4b, 0x03, 0x04],
  [0xd0, 0xcf, 0x11, 0xe0],
];

/**
 * The cells of a zone table.
 *
 * @throws {InputError} when the file is no table, not sound as one, or too large; `table-empty` when
 *   nothing stands in it, `table-only-heading` when nothing stands under its headings
 */
export const readTableFile = (path: string, bytes: Uint8Array): CsvTable => {
  if (spreadsheets.some((start) => start.every((byte, i) => bytes[i] === byte))) {
    throw inputError('table-spreadsheet', path, {});
  }
  const table = readCsv(bytes);
  if ('problem' in table) throw problemError(path, table);
  if (table.rows.length === 0) throw inputError('table-empty', path, {});
  if (table.rows.length === 1) {
    throw inputError('table-only-heading', path, {}, { line: table.rows[0]!.line });
  }
  return table;
};

const problemError = (path: string, { problem, line, column }: CsvProblem): InputError => {
  switch (problem) {
    case 'binary':
      return inputError('table-not-text', path, {});
    case 'too-large':
      return inputError('table-too-large', path, { limit: largestTable });
    case 'quote-open':
      return inputError('table-quote-open', path, {}, { line, column });
    case 'quote-inside':
      return inputError('table-quote-inside', path, {}, { line, column });
  }
};
