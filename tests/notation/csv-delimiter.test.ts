import { expect, test } from 'vitest';
import { readCsv } from '../../src/notation/csv.ts';

// Spreadsheets where the comma is the decimal mark write ; between the cells, and a first line sep=
// tells some of them what to expect: common practice.

const shapeOf = (text: string) => {
  const table = readCsv(new TextEncoder().encode(text));
  if ('problem' in table) expect.fail(table.problem);
  const { delimiter, decimalComma, rows } = table;
  return { delimiter, decimalComma, rows: rows.map((row) => row.cells.map((cell) => cell.text)) };
};

test.each([
  [
    'a,b\n1,2',
    ',',
    [
      ['a', 'b'],
      ['1', '2'],
    ],
  ],
  [
    'a;b\n1,5;2',
    ';',
    [
      ['a', 'b'],
      ['1,5', '2'],
    ],
  ],
  [
    'a\tb\n1,5\t2;3',
    '\t',
    [
      ['a', 'b'],
      ['1,5', '2;3'],
    ],
  ],
  // The most frequent of the first line, and of that line only
  ['a;b;c,d\n1,2,3,4,5', ';', [['a', 'b', 'c,d'], ['1,2,3,4,5']]],
  ['a\tb\tc;d', '\t', [['a', 'b', 'c;d']]],
  // Not counted in quotes, not even over a line end
  ['"a,b,c";d', ';', [['a,b,c', 'd']]],
  [
    '"a,\n,b,";c\n1;2',
    ';',
    [
      ['a,\n,b,', 'c'],
      ['1', '2'],
    ],
  ],
  ['"a"",,";c', ';', [['a",,', 'c']]],
  // Lines without text don't count, whatever blanks are in them
  ['\n \r\n\t\t\na;b', ';', [['a', 'b']]],
  [
    '\r\ra;b\r1;2',
    ';',
    [
      ['a', 'b'],
      ['1', '2'],
    ],
  ],
  [
    '\tb\n1\t2',
    '\t',
    [
      ['', 'b'],
      ['1', '2'],
    ],
  ],
  // As many of each: the comma, then the semicolon
  ['a,b;c', ',', [['a', 'b;c']]],
  ['a;b\tc', ';', [['a', 'b\tc']]],
  ['name', ',', [['name']]],
])('%j is divided by %j', (text, delimiter, rows) => {
  expect(shapeOf(text)).toEqual({ delimiter, decimalComma: delimiter !== ',', rows });
});

test.each([
  ['sep=;\na,b;c,d', ';'],
  ['sep=;\r\na,b;c,d', ';'],
  ['sep=;\ra,b;c,d', ';'],
  ['SEP=; \na,b;c,d', ';'],
  ['"sep=;"\na,b;c,d', ';'],
  ['\ufeffsep=;\na,b;c,d', ';'],
  ['sep=,\na;b,c;d', ','],
  ['sep=\t\na,b\tc,d', '\t'],
])('%j says what divides it', (text, delimiter) => {
  const shape = shapeOf(text);
  expect(shape.delimiter).toBe(delimiter);
  expect(shape.rows).toHaveLength(1);
  expect(shape.rows[0]).toHaveLength(2);
});

test('the rows after a line that names the delimiter keep their numbers', () => {
  const table = readCsv(new TextEncoder().encode('sep=;\r\na;b'));
  expect('rows' in table ? table.rows[0] : table).toEqual({
    line: 2,
    cells: [
      { text: 'a', line: 2, column: 1 },
      { text: 'b', line: 2, column: 3 },
    ],
  });
});

test.each(['sep=|\na,b', 'sep=;x\na', 'sep=', 'a\nsep=;', '\nsep=;\na'])(
  '%j only looks like it',
  (text) => {
    expect(shapeOf(text).rows.flat().join()).toContain('sep=');
  },
);
