import { expect, test } from 'vitest';
import { faultLines, faultsOf, readTable, rowTable } from './reading.ts';

/** Per zone the name and bytes of its sample. */
const played = (table: string): readonly string[] => {
  const { zones, samples } = readTable(table);
  return zones.map((zone) => {
    expect(zone.samples).toHaveLength(1);
    const { name, frames, channels, width } = samples[zone.samples[0]!]!;
    return `${name}: ${String(frames * channels * width)}`;
  });
};

test('without a name each zone has a sample of its own, called as the zone', () => {
  expect(played(rowTable({ keys: '60|61', key: 'hit', bytes: '7' }))).toEqual([
    'hit/1: 7',
    'hit/2: 7',
  ]);
});

test('one name is one sample for all zones of the row', () => {
  const table = readTable(rowTable({ keys: '60|61|62', sample: 'tam.wav', bytes: '7' }));
  expect(table.samples).toHaveLength(1);
  expect(table.zones.map(({ samples }) => samples)).toEqual([[0], [0], [0]]);
  expect(table.samples[0]).toMatchObject({ name: 'tam.wav', present: true, partner: null });
});

test('a list gives each zone its own', () => {
  const cells = { keys: '60|61', microphone: 'close|tree', sample: 'a|b|c | d', bytes: '7' };
  expect(played(rowTable(cells))).toEqual(['a: 7', 'b: 7', 'c: 7', 'd: 7']);
});

test('a list of another length fits nothing', () => {
  expect(faultsOf(rowTable({ keys: '60|61', microphone: 'a|b', sample: 'x|y|z' }))).toMatchObject([
    { code: 'table-sample-count', args: { samples: 3, zones: 4 } },
  ]);
});

test('a name is one sample in all rows', () => {
  const table = readTable('keys,bytes,sample\n1,9,x\n2,8,y\n3,9,x\n');
  expect(table.samples.map(({ name }) => name)).toEqual(['x', 'y']);
  expect(table.zones.map(({ samples }) => samples[0])).toEqual([0, 1, 0]);
});

test('and has one size, whichever way it is written', () => {
  expect(played('keys,bytes,frames,bits,channels,sample\n1,12,,,,x\n2,,2,24,2,x\n')).toEqual([
    'x: 12',
    'x: 12',
  ]);
  expect(faultsOf('keys,bytes,sample\n1,9,x\n2,8,y\n3,10,x\n')).toMatchObject([
    {
      code: 'table-sample-differs',
      at: { line: 4, column: 6 },
      args: { sample: 'x', bytes: 10, other: 9, line: 2 },
    },
  ]);
});

/** Memory counts samples by name: two that are not one may not share it. */
test('a sample without a name takes none that a row gives', () => {
  expect(played('keys,bytes,sample,key\n1,9,,x\n2,8,x,\n')).toEqual(['x (2): 9', 'x: 8']);
});

test('a list may name a sample of another row, of the same size', () => {
  expect(faultLines('keys,bytes,sample\n1,9,x\n2|3,8,x|y\n')).toEqual(['table-sample-differs 3 7']);
});
