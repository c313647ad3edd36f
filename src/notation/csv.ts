import { decodeTable, type TableEncoding } from './csv-text.ts';
import { findDelimiter, type Delimiter } from './csv-delimiter.ts';
import { placesIn } from './places.ts';

/** The text of one cell and where it starts. */
export interface CsvCell {
  /** Without the quotes and, unless it was quoted, without blanks at the ends. */
  readonly text: string;
  /** Counted from 1. */
  readonly line: number;
  /** Of the first character that is no blank, or of the quote; counted from 1, in characters. */
  readonly column: number;
}

/** A row that has at least one cell with text. */
export interface CsvRow {
  /** The line on which the row starts, counted from 1. */
  readonly line: number;
  readonly cells: readonly CsvCell[];
}

export interface CsvTable {
  readonly rows: readonly CsvRow[];
  readonly delimiter: Delimiter;
  /** The comma is free to be the decimal mark: something else divides the cells. */
  readonly decimalComma: boolean;
  readonly encoding: TableEncoding;
}

/**
 * Why a table cannot be read, and where: a quote that is never closed (where it opens), a quote
 * inside a cell that has none around it or that goes on after its closing one (that quote), too many
 * bytes (at 1:1) or cells, or zero bytes, which text never has.
 */
export interface CsvProblem {
  readonly problem: 'quote-open' | 'quote-inside' | 'too-large' | 'binary';
  readonly line: number;
  readonly column: number;
}

/** In bytes; a row of a million zones has room for 67. More is no table that a person keeps. */
export const largestTable = 64 * 2 ** 20;

/** A file of nothing but delimiters has a cell for every byte; each takes dozens in memory. */
export const mostCells = 2 ** 22;

/** Blanks other than the delimiter, and the text of a cell without quotes, from where they are put. */
const patterns: Readonly<Record<Delimiter, { readonly blanks: RegExp; readonly bare: RegExp }>> = {
  ',': { blanks: /[^\S\r\n]*/uy, bare: /[^,"\r\n]*/uy },
  ';': { blanks: /[^\S\r\n]*/uy, bare: /[^;"\r\n]*/uy },
  '\t': { blanks: /[^\S\r\n\t]*/uy, bare: /[^\t"\r\n]*/uy },
};

/** Where a run of what `pattern` takes ends. */
const endOf = (pattern: RegExp, text: string, at: number): number => {
  pattern.lastIndex = at;
  pattern.test(text);
  return pattern.lastIndex;
};

/** The quote that closes the one at `open`, or -1. Two in a row stand for one in the text. */
const closingQuote = (text: string, open: number): number => {
  let at = text.indexOf('"', open + 1);
  while (at >= 0 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at;
};

const readRows = (
  text: string,
  start: number,
  delimiter: Delimiter,
): readonly CsvRow[] | CsvProblem => {
  const { blanks, bare } = patterns[delimiter];
  const placeOf = placesIn(text);
  const rows: CsvRow[] = [];
  let cells: CsvCell[] = [];
  let kept = 0;
  let at = start;
  let line = 1;

  while (at < text.length || cells.length > 0) {
    if (cells.length === 0) line = placeOf(at).line;
    const from = endOf(blanks, text, at);
    const quoted = text[from] === '"';
    const end = quoted ? closingQuote(text, from) : endOf(bare, text, from);
    const empty = !quoted && end === from;
    const place = placeOf(empty ? at : from);
    if (end < 0) return { problem: 'quote-open', ...place };
    if (kept + cells.length === mostCells) return { problem: 'too-large', ...place };
    cells.push({
      text: quoted
        ? text.slice(from + 1, end).replaceAll('""', '"')
        : text.slice(from, end).trimEnd(),
      line: place.line,
      column: place.column,
    });

    at = quoted ? endOf(blanks, text, end + 1) : end;
    const next = text[at];
    if (next === delimiter) {
      at += 1;
      continue;
    }
    if (next !== undefined && next !== '\r' && next !== '\n') {
      return { problem: 'quote-inside', ...placeOf(end) };
    }
    at += next === '\r' && text[at + 1] === '\n' ? 2 : 1;
    if (cells.some((cell) => cell.text !== '')) {
      rows.push({ line, cells });
      kept += cells.length;
    }
    cells = [];
  }
  return rows;
};

/**
 * A table as people's spreadsheets save it: comma-separated values (RFC 4180), and what is usual
 * beyond the RFC: `;` or TAB between the cells (whichever occurs most in the first line that has
 * text, or what a leading line `sep=;` says), UTF-8, UTF-16 or Windows-1252, any line ends, blanks
 * around cells and around quotes. Rows without text are left out. Takes linear time.
 *
 * @example readCsv(bytes) // { rows: [{ line: 1, cells: [...] }], delimiter: ';', ... }
 */
export const readCsv = (bytes: Uint8Array): CsvTable | CsvProblem => {
  if (bytes.length > largestTable) return { problem: 'too-large', line: 1, column: 1 };
  const { text, encoding } = decodeTable(bytes);
  const zero = text.indexOf('\0');
  if (zero >= 0) return { problem: 'binary', ...placesIn(text)(zero) };
  const { delimiter, start } = findDelimiter(text);
  const rows = readRows(text, start, delimiter);
  return 'problem' in rows ? rows : { rows, delimiter, decimalComma: delimiter !== ',', encoding };
};
