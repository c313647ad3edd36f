import { expect, test } from 'vitest';
import { faultLines, faultsOf, readTable, rowTable, startLines } from './reading.ts';

test('keys turn slowest, then velocities, controllers, takes and microphones', () => {
  const table = readTable(
    rowTable({
      keys: '36-47|48-59',
      velocities: '1-64|65-127',
      controllers: '1:0-63|1:64-127',
      'round-robin': '2',
      microphone: 'close|tree',
    }),
  );
  const expected: string[] = [];
  for (const keys of ['C2-B2', 'C3-B3']) {
    for (const velocities of ['v1-64', 'v65-127']) {
      for (const controllers of ['cc1 0-63', 'cc1 64-127']) {
        for (const take of ['rr1', 'rr2']) {
          for (const microphone of ['close', 'tree']) {
            expected.push([keys, velocities, controllers, take, microphone].join(' '));
          }
        }
      }
    }
  }
  expect(table.zones.map(({ key }) => key)).toEqual(expected);
  expect(table.zones.map(({ id }) => id)).toEqual(expected.map((_, i) => i));
  expect(table.zones.slice(0, 3).map(({ microphone }) => microphone)).toEqual([
    'close',
    'tree',
    'close',
  ]);
});

test('ranges of a few keys each, the last one cut', () => {
  const table = readTable('keys,bytes\nC2..G2 every 3,1\n');
  expect(startLines(table)).toEqual([
    'C2-D2: note-on 36-38 1-127 gate 0',
    'D#2-F2: note-on 39-41 1-127 gate 0',
    'F#2-G2: note-on 42-43 1-127 gate 0',
  ]);
});

test('rows stay in their order', () => {
  const { zones, program } = readTable('keys,bytes,key\n70,1,b\n60|61,1,a\n50,1,c\n');
  expect(zones.map(({ key }) => key)).toEqual(['b', 'a/1', 'a/2', 'c']);
  expect(program.starts.map(({ keys }) => keys[0])).toEqual([70, 60, 61, 50]);
});

test('the size of a row is that of each sample', () => {
  const { samples } = readTable(rowTable({ keys: '60|61|62', bytes: '500' }));
  expect(samples.map(({ frames }) => frames)).toEqual([500, 500, 500]);
});

test('microphones are compared folded and spelled as at first', () => {
  const { zones } = readTable('keys,bytes,microphone\n1,1,Close|Tree\n2,1,close| TREE\n3,1,\n');
  expect(zones.map(({ microphone }) => microphone)).toEqual([
    ...['Close', 'Tree', 'Close', 'Tree'],
    null,
  ]);
});

test('200 000 zones are read, one more is not', () => {
  const velocities = Array(125).fill('1-127').join('|');
  // 128 keys x 125 velocities x 12 takes = 192 000; 5 x 125 x 12 = 7 500; and 500 more.
  const most = [
    'keys,velocities,round-robin,bytes',
    `0-127 every 1,${velocities},12,1`,
    `1|2|3|4|5,${velocities},12,1`,
    '1,,500,1\n',
  ].join('\n');
  expect(readTable(most).zones).toHaveLength(200_000);
  expect(faultsOf(`${most}1,,,1\n`)).toMatchObject([
    { code: 'table-too-many-zones', at: { line: 5 }, args: { zones: 200_001, limit: 200_000 } },
  ]);
});

test('a row that multiplies beyond all measure is refused before anything is made', () => {
  const keys = '0-127 every 1|'.repeat(100) + '1';
  const velocities = Array(128).fill('1-127').join('|');
  const controllers = Array(128).fill('1:0-63').join('|');
  expect(faultLines(rowTable({ keys, velocities, controllers, 'round-robin': '1000' }))).toEqual([
    'table-too-many-zones 2 1',
  ]);
});
