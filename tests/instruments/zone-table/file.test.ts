import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readZoneTable } from '../../../src/instruments/zone-table/read.ts';
import { digest, refusal } from '../soundfont/reading.ts';
import { faultLines, faultsOf, readTable } from './reading.ts';

const plainTable = 'articulation,keys,seconds\nl\u00e9gato,C4,0.5\n';
const expected = readTable(plainTable);

const bytes = (...values: readonly number[]): Uint8Array => Uint8Array.from(values);

const utf16 = (text: string, littleEndian: boolean): Uint8Array => {
  const view = new DataView(new ArrayBuffer(2 * text.length + 2));
  [...`\ufeff${text}`].forEach((character, i) =>
    view.setUint16(2 * i, character.charCodeAt(0), littleEndian),
  );
  return new Uint8Array(view.buffer);
};

test.each<[string, string | Uint8Array]>([
  ['a byte order mark', `\ufeff${plainTable}`],
  ['CRLF', plainTable.replaceAll('\n', '\r\n')],
  ['CR', plainTable.replaceAll('\n', '\r')],
  ['semicolons and decimal commas', plainTable.replaceAll(',', ';').replace('0.5', '0,5')],
  ['tabs', plainTable.replaceAll(',', '\t')],
  ['quotes and empty rows', '\n"articulation","keys","seconds"\n\n"légato","C4","0.5"\n,,\n'],
  ['the separator in the first line', `sep=;\n${plainTable.replaceAll(',', ';')}`],
  ['UTF-16', utf16(plainTable, true)],
  ['UTF-16, the other way round', utf16(plainTable, false)],
])('%s makes no difference', (_, table) => {
  expect({ ...readTable(table), sha256: '' }).toEqual({ ...expected, sha256: '' });
});

test('text that is not UTF-8 is read, with a warning', () => {
  const table = readTable(Uint8Array.from(plainTable, (character) => character.charCodeAt(0)));
  expect(table.articulations[0]!.name).toBe('l\u00e9gato');
  expect(table.findings[0]).toMatchObject({ code: 'table-encoding', severity: 'warning' });
});

test.each<[string, string | Uint8Array, readonly string[]]>([
  ['nothing', '', ['table-empty -']],
  ['empty lines', '\n,,\n\n', ['table-empty -']],
  ['a heading only', '\nkeys,bytes\n', ['table-only-heading 2']],
  ['a spreadsheet', bytes(0x50, 0x4b, 0x03, 0x04, 0x14, 0x00), ['table-spreadsheet -']],
  ['an old spreadsheet', bytes(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1), ['table-spreadsheet -']],
  ['another file', bytes(0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6), ['table-not-text -']],
  ['a quote left open', 'keys,bytes\n1,"1\n2,1\n', ['table-quote-open 2 3']],
  ['a quote inside', 'keys,bytes\n1,2"1\n', ['table-quote-inside 2 4']],
  ['more than 64 MiB', new Uint8Array(64 * 2 ** 20 + 1).fill(0x31), ['table-too-large -']],
])('%s is refused', (_, table, lines) => {
  expect(faultLines(table)).toEqual(lines);
});

test('line and column are those of the cell, also behind a cell of two lines', () => {
  expect(faultLines('keys,bytes,key\n60,1,"a\nb"\n61,wrong\n')).toEqual(['table-cell 4 4']);
});

test('a table is one instrument, played by single tracks', () => {
  expect(expected).toMatchObject({
    id: 'harp',
    source: 'tables/harp.csv',
    playedAs: 'single',
    presetZones: [],
    program: { scope: 'copy', retriggers: true, zones: 1, articulations: 1 },
  });
  expect(expected.sha256).toMatch(/^[0-9a-f]{64}$/u);
  expect(expected.zones).toMatchObject([{ id: 0, group: 0 }]);
  expect(expected.program.starts).toMatchObject([{ releaseSeconds: Infinity }]);
});

test('it is read from files, and what they refuse is passed on', async () => {
  const files = new MemoryFiles({ 'tables/harp.csv': plainTable });
  expect(await readZoneTable(files, 'tables/harp.csv', 4, digest)).toEqual(expected);
  expect(await refusal(readZoneTable(files, 'tables/hrp.csv', 4, digest))).toMatchObject({
    code: 'path-missing',
    file: 'tables/hrp.csv',
  });
});

test('of a file that is far too large no more is read than shows it', async () => {
  const files = new MemoryFiles({ 'a.csv': new Uint8Array(80 * 2 ** 20).fill(0x31) });
  expect((await refusal(readZoneTable(files, 'a.csv', 4, digest))).code).toBe('table-too-large');
  expect(files.bytesRead('a.csv')).toBe(64 * 2 ** 20 + 1);
});

test('faults name the file', () => {
  expect(faultsOf('keys,bytes\nH,1\n')[0]!.file).toBe('tables/harp.csv');
});
