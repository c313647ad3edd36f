import { expect, test } from 'vitest';
import { columnNames } from '../../../src/instruments/zone-table/columns.ts';
import { faultLines, faultsOf, readTable, startLines } from './reading.ts';

/** Design, section 8. */
test('the columns are those of the design', () => {
  expect([...columnNames].sort()).toEqual(
    [
      ...['articulation', 'switch', 'keys', 'velocities', 'controllers', 'sampled-key', 'sample'],
      ...['frames', 'seconds', 'rate', 'bits', 'channels', 'bytes', 'round-robin', 'release'],
      ...['microphone', 'key'],
    ].sort(),
  );
});

test('headings in any order, with spaces, underscores, hyphens, capitals and accents', () => {
  const table = readTable('Round Robin,BYTES,Sampled_Key, Kéys ,release\n2,100,C4,60,no\n');
  expect(table.findings).toEqual([]);
  expect(startLines(table)).toEqual([
    'C4 rr1: note-on 60-60 1-127 gate 0',
    'C4 rr2: note-on 60-60 1-127 gate 0',
  ]);
});

test.each([
  ['velocitys', 'velocities'],
  ['velocity', 'velocities'],
  ['vel', 'velocities'],
  ['mics', 'microphone'],
  ['Sample rate', 'rate'],
  ['bit_depth', 'bits'],
  ['artikulation', 'articulation'],
  ['Mic', 'microphone'],
  ['rr', 'round-robin'],
  ['root key', 'sampled-key'],
  ['keyswitch', 'switch'],
])('a heading %s is taken for a slip of %s', (heading, near) => {
  expect(readTable(`keys,bytes,${heading}\n1,1,\n`).findings).toEqual([
    {
      code: 'table-column-near',
      severity: 'warning',
      file: 'tables/harp.csv',
      at: { line: 1, column: 12 },
      args: { column: heading, near },
    },
  ]);
});

test('a column that is there is not what another one may have meant', () => {
  expect(readTable('keys,bytes,kes\n1,1,\n').findings).toMatchObject([
    { code: 'table-column-near', args: { near: 'key' } },
  ]);
  expect(readTable('keys,bytes,velocity,velocities\n1,1,,\n').findings).toMatchObject([
    { code: 'table-columns-unknown', args: { columns: ['velocity'] } },
  ]);
});

test('other headings are skipped with one note; those without text without a word', () => {
  expect(readTable(',keys,comment,bytes,recorded by\n7,1,nice,1,Ada\n').findings).toMatchObject([
    {
      code: 'table-columns-unknown',
      severity: 'note',
      at: { line: 1 },
      args: { columns: ['comment', 'recorded by'], more: 0 },
    },
  ]);
  const many = Array.from({ length: 5_000 }, (_, i) => `remark number ${String(i)}`);
  expect(readTable(`keys,bytes,${many.join(',')}\n1,1\n`).findings).toMatchObject([
    { args: { columns: many.slice(0, 12), more: 4_988 } },
  ]);
});

test('keys and a size are needed', () => {
  expect(faultsOf('articulation,rate\nlegato,48000\n')).toMatchObject([
    {
      code: 'table-column-missing',
      at: { line: 1 },
      args: { column: 'keys', present: ['articulation', 'rate'], likely: null },
    },
    { code: 'table-column-missing', args: { column: 'bytes, frames or seconds' } },
  ]);
});

test.each(['keyz', 'Key range', 'key ranges', 'range'])('a heading %s may mean keys', (heading) => {
  expect(faultsOf(`comment,${heading},bytes\nx,60,1\n`)).toMatchObject([
    { code: 'table-column-missing', args: { column: 'keys', likely: heading, meant: 'keys' } },
  ]);
});

test.each([
  ['file size', 'bytes'],
  ['length', 'seconds'],
  ['frame', 'frames'],
])('a heading %s may mean %s', (likely, meant) => {
  expect(faultsOf(`keys,${likely}\n60,1\n`)).toMatchObject([
    { code: 'table-column-missing', args: { likely, meant } },
  ]);
});

test('a dash of any kind divides the words of a heading', () => {
  const { findings, zones } = readTable(
    'keys,bytes,round \u2013 robin,sampled\u2010key\n60,1,2,C4\n',
  );
  expect(findings).toEqual([]);
  expect(zones).toHaveLength(2);
});

test('a column is there once', () => {
  expect(faultLines('keys,bytes,Keys\n1,1,2\n')).toEqual(['table-column-twice 1 12']);
});

test('what stands behind the last heading may have slipped there', () => {
  expect(faultLines('keys,velocities,bytes,\n1,1-40,41-127,1000\n2,,1000,,\n')).toEqual([
    'table-cells-beyond 2 15',
  ]);
});
