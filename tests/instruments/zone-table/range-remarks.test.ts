import { expect, test } from 'vitest';
import type { Finding } from '../../../src/terms/finding.ts';
import { faultsOf, readTable, rowTable } from './reading.ts';

const found = (code: string, table: string, middleC = 4): readonly Finding[] =>
  readTable(table, middleC).findings.filter((one) => one.code === code);

test('a range of more than an octave is one sample for all of its keys', () => {
  const table = [
    'keys,bytes,velocities,microphone,release',
    'C2-B2,1,,,',
    'C2-C3|E2-E4|60,1,1-63|64-127,close|tree|hall,',
    'G3-E7,1,,,yes',
    'G3..E7 every 12,1,,,',
  ].join('\n');
  // By hand: two ranges of row 3 with 2 layers and 3 microphones each, and one release. Key numbers:
  // General MIDI with 60 as C4.
  expect(found('table-wide-zones', table)).toMatchObject([
    {
      severity: 'warning',
      at: { line: 3, column: 1 },
      args: { zones: 13, limit: 12, lo: 55, hi: 100, from: 'G3', to: 'E7' },
    },
  ]);
});

test('the widest range is written as in the table', () => {
  expect(found('table-wide-zones', 'keys,bytes\nG2-E6,1\n', 3)).toMatchObject([
    { args: { lo: 55, hi: 100, from: 'G2', to: 'E6' } },
  ]);
});

test.each(['C2-B2', '36-47', '60', 'C-1..G9 every 12', 'C-1..G9 every 1'])(
  '%s is no remark',
  (keys) => {
    expect(found('table-wide-zones', rowTable({ keys }))).toEqual([]);
  },
);

const gaps = (rows: readonly string[]): readonly unknown[] =>
  found('table-velocity-gap', `articulation,keys,velocities,bytes\n${rows.join('\n')}\n`).map(
    ({ severity, at, args }) => [severity, at?.line, args],
  );

test('a gap in the list of a row is a warning', () => {
  expect(gaps(['a,60,1-63|64-127,1', 'b,60,50-127|1-40,1', 'c,60,1-40|42-80|90-127,1'])).toEqual([
    ['warning', 3, { lo: 41, hi: 49, within: 'row', more: 2 }],
  ]);
});

test('a gap between rows of an articulation is a note at the row above it', () => {
  expect(gaps(['a,60-62,65-127,1', 'A,60|61|62,1-63,1'])).toEqual([
    ['note', 2, { lo: 64, hi: 64, within: 'articulation', more: 0 }],
  ]);
});

test.each([
  ['another row fills it', ['a,60,1-40|80-127,1', 'a,60,41-79,1']],
  ['layers overlap', ['a,60,1-50|40-127,1']],
  ['nothing lies below or above', ['a,60,30-90,1']],
  ['the keys are others', ['a,60,1-40,1', 'a,61,50-127,1']],
  ['the articulations are others', ['a,60,1-40,1', 'b,60,50-127,1']],
])('no gap: %s', (_, rows) => {
  expect(gaps(rows)).toEqual([]);
});

test.each([
  ['close, tree', 'close|tree'],
  ['close,tree,', 'close|tree'],
  ['close, tree|hall', 'close|tree|hall'],
])('microphones %s are divided by the wrong sign', (microphone, instead) => {
  expect(faultsOf(rowTable({ microphone }))).toMatchObject([
    { code: 'table-microphones-divided', at: { line: 2 }, args: { value: microphone, instead } },
  ]);
});

test('semicolons between microphones', () => {
  expect(faultsOf('keys,bytes,microphone\n60,1,close; tree\n')).toMatchObject([
    {
      code: 'table-microphones-divided',
      at: { line: 2, column: 6 },
      args: { instead: 'close|tree' },
    },
  ]);
});

test.each(['4', '12', '2.0'])('a number %s names no microphone', (microphone) => {
  expect(faultsOf(rowTable({ microphone }))).toMatchObject([
    { code: 'table-microphones-counted', args: { value: microphone } },
  ]);
});

test.each(['mic 4', '1|2', 'U47'])('%s names microphones', (microphone) => {
  expect(readTable(rowTable({ keys: '60', microphone })).findings).toEqual([]);
});
