import { expect, test } from 'vitest';
import { largestTable, mostCells, readCsv } from '../../src/notation/csv.ts';

// A reader that goes back over what it has read takes the square of the size: at a million
// characters that is hours, so that each of these ends at all is the check.

const million = 1_000_000;

const read = (text: string) => readCsv(new TextEncoder().encode(text));

test.each([
  ['a quote that is never closed', `a,"${'x,\n'.repeat(million)}`, 'quote-open', 1, 3],
  ['quotes, one too many', '"'.repeat(million + 1), 'quote-open', 1, 1],
  ['quotes and blanks', '" '.repeat(million), 'quote-inside', 1, 3],
  ['quotes and letters', '"a'.repeat(million), 'quote-inside', 1, 3],
  [
    'blanks before a quote that is never closed',
    `${' '.repeat(million)}"`,
    'quote-open',
    1,
    million + 1,
  ],
  ['blanks after a quote', `"a"${' '.repeat(million)}b`, 'quote-inside', 1, 3],
  ['a quote after a long cell', `${'x'.repeat(million)}"`, 'quote-inside', 1, million + 1],
  ['a quote after many lines', `${'\r\n'.repeat(million)}x"`, 'quote-inside', million + 1, 2],
])('%s', (_, text, problem, line, column) => {
  expect(read(text)).toEqual({ problem, line, column });
});

test('a million quotes in pairs are a cell of quotes', () => {
  const table = read('"'.repeat(million));
  const cells = 'rows' in table ? table.rows[0]?.cells : undefined;
  expect(cells).toHaveLength(1);
  expect(cells?.[0]?.text === '"'.repeat(million / 2 - 1)).toBe(true);
});

test.each([
  ['line ends', '\r'.repeat(million)],
  ['blanks', ' '.repeat(million)],
  ['lines of blanks', ' \t\n'.repeat(million)],
  ['empty cells in quotes', '"",'.repeat(million)],
])('a million %s are no rows', (_, text) => {
  expect(read(text)).toMatchObject({ rows: [] });
});

test('rows and cells are counted right over a million characters', () => {
  const table = read(`${'a,b\n'.repeat(million / 4)}𝄞,  c`);
  const rows = 'rows' in table ? table.rows : [];
  expect(rows).toHaveLength(million / 4 + 1);
  expect(rows.at(-1)).toEqual({
    line: million / 4 + 1,
    cells: [
      { text: '𝄞', line: million / 4 + 1, column: 1 },
      { text: 'c', line: million / 4 + 1, column: 5 },
    ],
  });
});

test('64 MiB are looked at, one byte more is not', () => {
  expect(largestTable).toBe(67_108_864);
  const bytes = new Uint8Array(largestTable + 1);
  expect(readCsv(bytes)).toEqual({ problem: 'too-large', line: 1, column: 1 });
  // Zero bytes: it was looked at.
  expect(readCsv(bytes.subarray(1))).toEqual({ problem: 'binary', line: 1, column: 1 });
});

test('cells are counted, over all rows, before they fill the memory', () => {
  expect(read(','.repeat(mostCells - 1))).toMatchObject({ rows: [] });
  expect(read(`x,x\n${','.repeat(mostCells)}`)).toEqual({
    problem: 'too-large',
    line: 2,
    column: mostCells - 1,
  });
});
