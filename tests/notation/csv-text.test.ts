import { expect, test } from 'vitest';
import { readCsv } from '../../src/notation/csv.ts';

const cellsOf = (...bytes: readonly number[]) => {
  const table = readCsv(Uint8Array.from(bytes));
  if ('problem' in table) return table;
  return {
    encoding: table.encoding,
    texts: table.rows.flatMap((row) => row.cells.map((cell) => cell.text)),
    column: table.rows[0]?.cells[0]?.column,
  };
};

/** A text as UTF-16 in the order asked for, with its byte order mark. */
const utf16 = (text: string, littleEndian: boolean): readonly number[] => {
  const view = new DataView(new ArrayBuffer(2 * text.length + 2));
  [0xfeff, ...Array.from({ length: text.length }, (_, i) => text.charCodeAt(i))].forEach(
    (unit, i) => view.setUint16(2 * i, unit, littleEndian),
  );
  return [...new Uint8Array(view.buffer)];
};

const text = 'Célesta,𝄞 C♯4';
const texts = ['Célesta', '𝄞 C♯4'];
const utf8 = [...new TextEncoder().encode(text)];

test.each([
  ['UTF-8', 'utf-8', utf8],
  ['UTF-8 with its mark', 'utf-8', [0xef, 0xbb, 0xbf, ...utf8]],
  ['UTF-16, low byte first', 'utf-16', utf16(text, true)],
  ['UTF-16, high byte first', 'utf-16', utf16(text, false)],
])('%s', (_, encoding, bytes) => {
  expect(cellsOf(...bytes)).toEqual({ encoding, texts, column: 1 });
});

test('bytes that are no UTF-8 are Windows-1252', () => {
  expect(cellsOf(0x43, 0xe9, 0x6c, 0x2c, 0x31, 0x96, 0x34, 0x30)).toEqual({
    encoding: 'windows-1252',
    texts: ['Cél', '1–40'],
    column: 1,
  });
  // A mark of UTF-8, then text that is not
  expect(cellsOf(0xef, 0xbb, 0xbf, 0x43, 0xe9)).toEqual({
    encoding: 'windows-1252',
    texts: ['Cé'],
    column: 1,
  });
});

/** Encoding Standard (WHATWG), index windows-1252, 0x80 to 0x9f (from memory). */
// prettier-ignore
const index1252 = [
  0x20ac, 0x0081, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021,
  0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0x008d, 0x017d, 0x008f,
  0x0090, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014,
  0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0x009d, 0x017e, 0x0178,
];

test('every byte of Windows-1252', () => {
  for (let byte = 0x80; byte <= 0xff; byte += 1) {
    // In quotes, since 0xa0 is a blank; a letter at each side of it makes it no UTF-8.
    const expected = String.fromCharCode(index1252[byte - 0x80] ?? byte);
    expect(cellsOf(0x22, 0x61, byte, 0x62, 0x22)).toMatchObject({
      encoding: 'windows-1252',
      texts: [`a${expected}b`],
    });
  }
});

test('long text in Windows-1252 is whole', () => {
  const bytes = new Uint8Array(100_001).fill(0xe9);
  const table = readCsv(bytes);
  expect('rows' in table && table.rows[0]?.cells[0]?.text === 'é'.repeat(100_001)).toBe(true);
});

test.each([
  ['in text', [0x61, 0x0a, 0x62, 0x00], 2, 2],
  ['in what is no UTF-8', [0xe9, 0x00], 1, 2],
  ['in UTF-16', utf16('a\0', true), 1, 2],
  ['in quotes', [0x22, 0x00, 0x22], 1, 2],
  ['after a fault of quotes', [0x61, 0x22, 0x00], 1, 3],
  ['of UTF-16 without its mark', utf16('ab', true).slice(2), 1, 2],
])('a zero byte %s is no table', (_, bytes, line, column) => {
  expect(cellsOf(...bytes)).toEqual({ problem: 'binary', line, column });
});

test('half a character at the end of UTF-16 is shown as one that is missing', () => {
  expect(cellsOf(...utf16('ab', true).slice(0, -1))).toMatchObject({ texts: ['a\ufffd'] });
});
