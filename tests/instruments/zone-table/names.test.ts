import { expect, test } from 'vitest';
import { faultLines, faultsOf, readTable, rowTable } from './reading.ts';

const keysOf = (table: string): readonly (string | null)[] =>
  readTable(table).zones.map(({ key }) => key);

test.each([
  [{ keys: 'C4' }, 'C4'],
  [{ keys: 'C2-C4', articulation: 'legato', velocities: '1-40' }, 'legato C2-C4 v1-40'],
  [{ keys: '60', velocities: '100' }, 'C4 v100'],
  [{ keys: '60', velocities: '1-127' }, 'C4'],
  [{ keys: '60', controllers: '1:0-63 & 11:64-127' }, 'C4 cc1 0-63 cc11 64-127'],
  [{ keys: '60', 'round-robin': '3/4', microphone: 'tree' }, 'C4 rr3 tree'],
  [{ keys: '60', release: 'yes' }, 'C4 release'],
  [{ keys: '60', release: 'note-off' }, 'C4 note-off'],
])('%j is called %s', (cells, name) => {
  expect(keysOf(rowTable(cells))).toEqual([name]);
});

test('zones that look alike are numbered', () => {
  expect(keysOf('keys,bytes\nC4,1\nC4,2\nD4,3\nC4,4\n')).toEqual([
    ...['C4', 'C4 (2)', 'D4', 'C4 (3)'],
  ]);
});

test('a key of its own stands for the row, numbered where it has several zones', () => {
  expect(keysOf('key,keys,bytes\nleg,60|61,1\nlow C,36,1\n')).toEqual(['leg/1', 'leg/2', 'low C']);
});

test('a made name makes way for a given one, wherever that stands', () => {
  expect(keysOf('key,keys,bytes\n,C4,1\nC4,50,1\n,C4,1\n')).toEqual(['C4 (2)', 'C4', 'C4 (3)']);
});

/** So that a keep file still means the same zones after the rows were sorted. */
test('names do not depend on where a row stands', () => {
  const rows = ['legato,C2-C3|C#3-C4,1-40,,1', 'legato,C2-C3,41-127,,2', 'pizz,C2-C4,,p,3'];
  const heading = 'articulation,keys,velocities,key,bytes';
  const named = (all: readonly string[]): readonly string[] => {
    const { zones, samples } = readTable([heading, ...all].join('\n'));
    return zones.map(({ key, samples: [sample] }) => `${key!} ${String(samples[sample!]!.frames)}`);
  };
  expect([...named(rows.toReversed())].sort()).toEqual([...named(rows)].sort());
});

test('no two rows have one key', () => {
  expect(faultsOf('key,keys,bytes\na,1,1\nb,2,1\na,3,1\n')).toMatchObject([
    { code: 'table-key-twice', at: { line: 4, column: 1 }, args: { key: 'a', line: 2 } },
  ]);
  // `a` numbers its zones a/1 and a/2.
  expect(faultLines('key,keys,bytes\na/2,1,1\na,2|3,1\n')).toEqual(['table-key-twice 3 1']);
  expect(faultLines('key,keys,bytes\na,2|3,1\na/2,1,1\n')).toEqual(['table-key-twice 3 1']);
});
