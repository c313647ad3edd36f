import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readLoaded, type LoadedTable } from '../../../src/memory/readings/read-loaded.ts';
import { InputError } from '../../../src/terms/errors.ts';

const instruments = [
  { id: 'horns', copies: ['Hn 1', 'Hn 2'] },
  { id: 'low-strings', copies: ['Vc', 'vc'] },
  { id: 'Célesta', copies: [] },
];

const read = (text: string): LoadedTable =>
  readLoaded(new TextEncoder().encode(text), 'loaded.csv', instruments);

/** Code and line:column of every fault, in the order they are told. */
const faults = (text: string): readonly string[] => {
  try {
    read(text);
    return [];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return [error.finding, ...error.others].map(
      ({ code, at }) => `${code} ${at?.line ?? 0}:${at?.column ?? 0}`,
    );
  }
};

test.each([
  ['commas', 'instrument,loaded,copy\nhorns,1.5 GiB,\nlow-strings,840 MB,Vc\n'],
  [
    'semicolons and a decimal comma',
    'Loaded;Instrument;COPY\n1,5 GiB;horns;\n840 MB;low-strings;Vc',
  ],
  ['tabs', 'instrument\tcopy\tloaded\r\nHORNS\t\t1.5 GiB\r\nlow-strings\tVc\t840MB'],
  ['what divides, said', 'sep=;\ninstrument;loaded;copy\nhorns;1.5 GiB;\nlow-strings;840 MB;"Vc"'],
])('%s', (_, text) => {
  expect(read(text).rows.map(({ instrument, copy, bytes }) => [instrument, copy, bytes])).toEqual([
    ['horns', null, 1.5 * 2 ** 30],
    ['low-strings', 'Vc', 840_000_000],
  ]);
});

test('no column of copies, and names as they are folded', () => {
  const { rows, findings } = read('instrument,loaded\n"celesta",0\n');
  expect(rows).toEqual([
    { instrument: 'Célesta', copy: null, bytes: 0, at: { line: 2, column: 1 } },
  ]);
  expect(findings).toEqual([]);
});

test('copies that only differ in case are told apart as they are written', () => {
  const { rows } = read('instrument,copy,loaded\nlow-strings,vc,1 MB\nlow-strings,Vc,2 MB\n');
  expect(rows.map(({ copy }) => copy)).toEqual(['vc', 'Vc']);
  expect(faults('instrument,copy,loaded\nlow-strings,VC,1 MB\n')).toEqual(['loaded-copy 2:13']);
});

test('a column that is not known is skipped, and told', () => {
  const { rows, findings } = read('instrument,loaded,copi,remark\nhorns,1 MB,,x\n');
  expect(rows).toHaveLength(1);
  expect(findings.map(({ code, args }) => [code, args])).toEqual([
    ['loaded-column-unknown', { column: 'copi', near: 'copy' }],
    ['loaded-column-unknown', { column: 'remark', near: null }],
  ]);
});

test.each([
  ['nothing', '', ['loaded-empty 0:0']],
  ['no rows', 'instrument,loaded\n', ['loaded-empty 0:0']],
  [
    'other headings',
    'name,load\nhorns,1 GiB',
    ['loaded-column-missing 1:1', 'loaded-column-missing 1:1'].concat(
      'loaded-column-unknown 1:1',
      'loaded-column-unknown 1:6',
    ),
  ],
  ['a heading twice', 'instrument,loaded,Loaded\nhorns,1 GiB,', ['loaded-column-twice 1:19']],
  ['a bare number', 'instrument,loaded\nhorns,1.24', ['loaded-amount 2:7']],
  ['no amount', 'instrument,loaded\nhorns,', ['loaded-amount 2:7']],
  ['no instrument', 'instrument,loaded\n,1 MB', ['loaded-instrument 2:1']],
  ['a decimal comma between commas', 'instrument,loaded\nhorns,1,24 GiB', ['loaded-row-long 2:9']],
  [
    'all at once',
    'instrument,loaded,copy\nhornz,much,\nhorns,1 GiB,Hn 3\nhorns,1 GiB,\nhorns,2 GiB,',
    ['loaded-instrument 2:1', 'loaded-amount 2:7', 'loaded-copy 3:13', 'loaded-twice 5:1'],
  ],
  ['an open quote', 'instrument,loaded\n"horns,1 GiB', ['loaded-unreadable 2:1']],
  ['no text', 'instrument,loaded\nhor\0ns,1 GiB', ['loaded-unreadable 2:4']],
])('%s', (_, text, expected) => {
  expect(faults(text)).toEqual(expected);
});

test('what was meant is named', () => {
  const nearOf = (text: string): unknown => {
    try {
      read(text);
    } catch (error) {
      return (error as InputError).finding.args;
    }
    return null;
  };
  expect(nearOf('instrument,loaded\nhornz,1 GiB')).toEqual({ instrument: 'hornz', near: 'horns' });
  expect(nearOf('instrument,loaded,copy\nhorns,1 GiB,Hm 1')).toMatchObject({ near: 'Hn 1' });
  expect(nearOf('instrument,load\nhorns,1 GiB')).toEqual({ column: 'loaded', near: 'load' });
});

test('of many faults the first hundred are listed', () => {
  const told = faults(`instrument,loaded\n${'horns,much\n'.repeat(250)}`);
  expect(told).toHaveLength(101);
  expect(told.at(-1)).toBe('loaded-more-errors 0:0');
});

test('any text is read or refused', () => {
  const cell = fc.oneof(
    fc.constantFrom('horns', 'Hn 1', '1 GiB', '1,5 GB', 'instrument', 'loaded', 'copy', '', '"'),
    fc.string({ unit: 'binary', maxLength: 8 }),
  );
  const sheet = fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 6 });
  fc.assert(
    fc.property(sheet, fc.constantFrom(',', ';', '\t'), (cells, divider) => {
      faults(cells.map((row) => row.join(divider)).join('\n'));
    }),
  );
});
