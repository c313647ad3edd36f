import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readCsv, type CsvProblem, type CsvRow, type CsvTable } from '../../src/notation/csv.ts';
import { writtenTable } from './written-table.ts';

// The format: RFC 4180, section 2. The independent reader: csv-parse, told the delimiter, which ours
// has to find. Both leave blanks around cells and quotes out; the RFC would keep them.

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

const read = (text: string): CsvTable | CsvProblem => readCsv(bytesOf(text));

const table = (text: string): CsvTable => {
  const result = read(text);
  if ('problem' in result) expect.fail(`${result.problem} in ${JSON.stringify(text)}`);
  return result;
};

const texts = (rows: readonly CsvRow[]): readonly (readonly string[])[] =>
  rows.map(({ cells }) => cells.map((cell) => cell.text));

/** The rows csv-parse reads, or the code of its error. */
const independent = (text: string, delimiter: string): readonly (readonly string[])[] | string => {
  try {
    const rows: string[][] = parse(text, {
      delimiter,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      trim: true,
      bom: true,
    });
    return rows.filter((row) => row.some((cell) => cell !== ''));
  } catch (error) {
    return (error as { code: string }).code;
  }
};

test('tables read as csv-parse reads them, and as they were written', () => {
  fc.assert(
    fc.property(writtenTable, ({ source, delimiter, cells }) => {
      fc.pre(cells[0]?.some(({ text }) => text !== '') ?? false);
      const result = table(source);
      expect(result.delimiter).toBe(delimiter);
      expect(texts(result.rows)).toEqual(independent(source, delimiter));
      expect(texts(result.rows)).toEqual(
        cells
          .map((row) => row.map(({ text }) => text))
          .filter((row) => row.some((text) => text !== '')),
      );
    }),
    { numRuns: 1000 },
  );
});

test('a cell stands where it says', () => {
  fc.assert(
    fc.property(writtenTable, ({ source, delimiter, cells }) => {
      const lines = source.split(/\r\n|\r|\n/u).map((line) => [...line]);
      const written = cells.filter((row) => row.some(({ text }) => text !== ''));
      const { rows } = table(`sep=${delimiter}\n${source}`);
      rows.forEach(({ line: rowLine, cells: row }, i) => {
        row.forEach(({ line, column }, j) => {
          // One line more: the one that names the delimiter.
          const from = lines[line - 2]!.slice(column - 1).join('');
          const { raw, before } = written[i]![j]!;
          expect(from.startsWith(raw.split(/\r\n|\r|\n/u)[0]!)).toBe(true);
          const upTo = lines[line - 2]!.slice(0, column - 1).join('');
          const start = raw === '' ? upTo : upTo.slice(0, upTo.length - before.length);
          expect(j === 0 ? start : start.at(-1)).toBe(j === 0 ? '' : delimiter);
          if (j === 0) expect(line).toBe(rowLine);
        });
      });
      expect(rows).toHaveLength(written.length);
    }),
    { numRuns: 500 },
  );
});

test('quotes gone wrong are the same fault to csv-parse', () => {
  const faults: Readonly<Record<string, string>> = {
    CSV_QUOTE_NOT_CLOSED: 'quote-open',
    CSV_INVALID_CLOSING_QUOTE: 'quote-inside',
    INVALID_OPENING_QUOTE: 'quote-inside',
  };
  // Without blanks: csv-parse lets two quoted texts with a blank between them pass as one cell.
  const scrap = fc.string({ unit: fc.constantFrom('"', '"', ',', '\n', 'a'), maxLength: 12 });
  let wrong = 0;
  fc.assert(
    fc.property(scrap, (text) => {
      const result = read(`sep=,\n${text}`);
      const other = independent(text, ',');
      if (typeof other === 'string') {
        wrong += 1;
        expect(result).toMatchObject({ problem: faults[other] ?? other });
      } else {
        expect('rows' in result ? texts(result.rows) : result).toEqual(other);
      }
    }),
    { numRuns: 2000 },
  );
  expect(wrong).toBeGreaterThan(500);
});

test('no bytes make it throw', () => {
  const bytes = fc.uint8Array({ maxLength: 200 });
  const mark = fc.constantFrom([], [0xff, 0xfe], [0xfe, 0xff], [0xef, 0xbb, 0xbf]);
  fc.assert(
    fc.property(mark, bytes, (start, rest) => {
      const result = readCsv(Uint8Array.from([...start, ...rest]));
      expect('problem' in result ? result.line : result.rows.length).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 1000 },
  );
});

test.each([
  ['nothing', ''],
  ['a mark only', '\ufeff'],
  ['line ends', '\n\r\n\r'],
  ['blanks', '  \n\t\n\u00a0'],
  ['empty cells', ',,\n"",""\n , \n'],
  ['its delimiter only', 'sep=;\n'],
])('a table of %s has no rows', (_, text) => {
  expect(table(text).rows).toEqual([]);
});

test('places count lines of every kind and characters, not units or bytes', () => {
  const text = 'é,𝄞,x\r\n\r\n,,\r"a\nb\r\nc",  d ,\r "♯" ,';
  expect(table(text).rows).toEqual([
    {
      line: 1,
      cells: [
        { text: 'é', line: 1, column: 1 },
        { text: '𝄞', line: 1, column: 3 },
        { text: 'x', line: 1, column: 5 },
      ],
    },
    {
      line: 4,
      cells: [
        { text: 'a\nb\r\nc', line: 4, column: 1 },
        { text: 'd', line: 6, column: 6 },
        { text: '', line: 6, column: 9 },
      ],
    },
    {
      line: 7,
      cells: [
        { text: '♯', line: 7, column: 2 },
        { text: '', line: 7, column: 7 },
      ],
    },
  ]);
});

test('blanks are kept in quotes only', () => {
  expect(texts(table('a, b\u00a0c\u00a0 ,"  d "\n" ",').rows)).toEqual([
    ['a', 'b\u00a0c', '  d '],
    [' ', ''],
  ]);
});

test.each([
  ['unclosed', '"a', 'quote-open', 1, 1],
  ['unclosed further on', 'a,b\n1, "2\n3,4\n', 'quote-open', 2, 4],
  ['closed only by a pair', 'a,"b""', 'quote-open', 1, 3],
  ['a lone quote', '"', 'quote-open', 1, 1],
  ['in a bare cell', 'a,b\nx,7" tom', 'quote-inside', 2, 4],
  ['after a letter of two units', '𝄞"', 'quote-inside', 1, 2],
  ['followed by text', 'a,"b"c', 'quote-inside', 1, 5],
  ['followed by another', 'a,"b" "c"', 'quote-inside', 1, 5],
  ['followed by text in a later line', '"a\nb"c', 'quote-inside', 2, 2],
] as const)('a quote %s: %j', (_, text, problem, line, column) => {
  expect(read(text)).toEqual({ problem, line, column });
});
