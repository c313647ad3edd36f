import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { csvText, span, type CsvValue } from '../../src/report/csv.ts';
import { printable } from '../../src/terms/printable.ts';

/** What an independent reader finds, by the rules of RFC 4180 and nothing beyond them. */
const read = (text: string): readonly (readonly string[])[] =>
  parse(text, { relax_column_count: false, record_delimiter: '\r\n' });

/** What a value should come back as. */
const expected = (value: CsvValue): string => {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const defused = ['=', '+', '-', '@', '\t', '\r'].some((first) => value.startsWith(first));
  return printable(defused ? `'${value}` : value);
};

const value = fc.oneof(
  fc.constant(null),
  fc.integer(),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.string({ unit: 'binary' }),
  fc.string({
    unit: fc.constantFrom('"', ',', ';', '\r', '\n', '\t', '=', '-', '@', '+', "'", ' ', 'é', 'a'),
  }),
);

const table = fc
  .integer({ min: 1, max: 5 })
  .chain((width) =>
    fc.tuple(
      fc.array(fc.string({ unit: 'binary' }), { minLength: width, maxLength: width }),
      fc.array(fc.array(value, { minLength: width, maxLength: width }), { maxLength: 8 }),
    ),
  );

describe('any table', () => {
  test('comes back cell by cell from csv-parse', () => {
    fc.assert(
      fc.property(table, ([header, rows]) => {
        expect(read(csvText(header, rows))).toEqual(
          [header, ...rows].map((row: readonly CsvValue[]) => row.map(expected)),
        );
      }),
      { numRuns: 500 },
    );
  });

  test('is lines that end in CR LF, one for each row, with nothing else that acts', () => {
    fc.assert(
      fc.property(table, ([header, rows]) => {
        const text = csvText(header, rows);
        expect(text.endsWith('\r\n')).toBe(true);
        const lines = text.slice(0, -2).split('\r\n');
        expect(lines).toHaveLength(rows.length + 1);
        for (const line of lines) {
          expect(line).not.toBe('');
          expect(line).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
        }
      }),
    );
  });

  test('holds no formula: a cell that begins like one is a number', () => {
    fc.assert(
      fc.property(table, ([header, rows]) => {
        for (const cell of read(csvText(header, rows)).flat()) {
          if (/^[=+\-@]/u.test(cell)) expect(cell).toBe(String(Number(cell)));
        }
      }),
    );
  });
});

// RFC 4180, section 2: rules 1 (CR LF), 3 (header line), 6 (quotes around commas) and 7 (doubled
// quotes).
test('as RFC 4180 writes it', () => {
  expect(
    csvText(
      ['zone', 'name'],
      [
        [1, 'b'],
        [2, 'c, "d"'],
      ],
    ),
  ).toBe('zone,name\r\n1,b\r\n2,"c, ""d"""\r\n');
});

test.each([
  ['=1+2', "'=1+2"],
  ['+1', "'+1"],
  ['-1', "'-1"],
  ['@SUM(A1)', "'@SUM(A1)"],
  ['\t=1', "'\\x09=1"],
  ['\r=1', "'\\x0d=1"],
  ['=A1,"x"', `"'=A1,""x"""`],
  [' =1', ' =1'],
  ['a=1', 'a=1'],
  ['\u202e=1', '\\u202e=1'],
  ['two\r\nlines', 'two\\x0d\\x0alines'],
] as const)('%j is written as %j', (text, cell) => {
  expect(csvText(['a', 'b'], [[text, -1.5]])).toBe(`a,b\r\n${cell},-1.5\r\n`);
});

test('nothing in a single column is not an empty line', () => {
  expect(csvText(['a'], [[null]])).toBe('a\r\n""\r\n');
});

test.each([Number.NaN, Infinity, -Infinity])('%d can not be written', (number) => {
  expect(() => csvText(['a'], [[number]])).toThrow(RangeError);
});

test('a row that does not fit its headings can not be written', () => {
  expect(() => csvText(['a', 'b'], [[1, 2], [1]])).toThrow(/row 2/u);
});

test('a range is nothing that a spreadsheet takes for a date', () => {
  expect(span([3, 4])).toBe('3 to 4');
  expect(span([60, 60])).toBe('60');
});
