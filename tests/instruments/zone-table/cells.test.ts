import { expect, test } from 'vitest';
import { faultLines, faultsOf, readTable, rowTable, startLines } from './reading.ts';

const lines = (cells: Readonly<Record<string, string>>): readonly string[] =>
  startLines(readTable(rowTable({ key: 'z', ...cells })));

test.each([
  ['C4', '60-60'],
  ['36-47', '36-47'],
  ['C-1..G9', '0-127'],
])('keys %s are %s', (keys, expected) => {
  expect(lines({ keys })).toEqual([`z: note-on ${expected} 1-127 gate 0`]);
});

test('key names are read by the middle C of the table and written by C4', () => {
  const { zones, program } = readTable('keys,bytes\nC3-E3,1\n', 3);
  expect(program.starts[0]!.keys).toEqual([60, 64]);
  expect(zones[0]!.key).toBe('C4-E4');
});

test('another middle C makes another instrument', () => {
  expect(readTable('keys,bytes\n1,1\n', 3).sha256).not.toBe(readTable('keys,bytes\n1,1\n').sha256);
});

test.each([
  ['', '1-127'],
  ['64', '64-64'],
  ['1..40', '1-40'],
  ['0-40', '1-40'],
])('velocities %j are %s', (velocities, expected) => {
  expect(lines({ velocities })).toEqual([`z: note-on 0-127 ${expected} gate 0`]);
});

test.each([
  ['', 'note-on'],
  ['no', 'note-on'],
  ['FALSE', 'note-on'],
  ['0', 'note-on'],
  ['yes', 'release'],
  ['TRUE', 'release'],
  ['1', 'release'],
  ['note-off', 'note-off'],
  ['Note Off', 'note-off'],
  ['note_off', 'note-off'],
])('release %j starts with %s', (release, event) => {
  expect(lines({ release })).toEqual([`z: ${event} 0-127 1-127 gate 0`]);
});

test.each([
  ['1:0-63', 'controller 1:0-63'],
  ['CC1: 64', 'controller 1:64-64'],
  ['11:64-127 & 1:0-63', 'controller 1:0-63 controller 11:64-127'],
  // One controller twice: what holds for both.
  ['1:0-63 & 1:20-127', 'controller 1:20-63'],
])('controllers %s fade by %s', (controllers, fades) => {
  expect(lines({ controllers })).toEqual([`z: note-on 0-127 1-127 ${fades} gate 0`]);
});

test('a controller that may be anywhere is shown and decides nothing', () => {
  const table = readTable(rowTable({ controllers: '1:0-127' }));
  expect(table.program.signals).toEqual([]);
  expect(table.articulations[0]!.layers[0]!.controllers).toEqual([{ number: 1, range: [0, 127] }]);
});

test.each([
  ['4', [1, 2, 3, 4]],
  ['1|2|3', [1, 2, 3]],
  ['2/4', [2]],
  ['2/4|4/4', [2, 4]],
])('round robin %s is takes %j', (takes, expected) => {
  expect(readTable(rowTable({ keys: '60', 'round-robin': takes })).zones).toMatchObject(
    expected.map((take) => ({ key: `C4 rr${String(take)}` })),
  );
});

test.each([
  ['keys', 'H2'],
  ['keys', '40-36'],
  ['velocities', '1-128'],
  ['velocities', 'Jan 40'],
  ['controllers', '1'],
  ['sampled-key', 'X1'],
  ['switch', 'press hard'],
  ['round-robin', '0'],
  ['round-robin', '5/4'],
  ['round-robin', '1/2/3'],
  ['round-robin', '1||2'],
  ['round-robin', 'two'],
  ['round-robin', '1001'],
  ['release', 'perhaps'],
  ['microphone', 'close|'],
  ['sample', 'a||b'],
])('%s cannot be %j', (column, value) => {
  expect(faultsOf(rowTable({ articulation: 'a', [column]: value }))).toMatchObject([
    { code: 'table-cell', severity: 'error', args: { column, value }, at: { line: 2 } },
  ]);
});

test.each([
  ['velocities', '0'],
  ['velocities', '1-40|0'],
  ['controllers', '1:0-20 & 1:40-60'],
])('%s of %s never sound', (column, value) => {
  expect(faultsOf(rowTable({ [column]: value }))).toMatchObject([
    { code: 'table-never-sounds', args: { column, value } },
  ]);
});

test('a row without keys', () => {
  expect(faultLines('bytes,keys\n1,\n1\n')).toEqual([
    'table-cell-missing 2 3',
    'table-cell-missing 3',
  ]);
});

test('names may not be longer than 255 characters', () => {
  const most = 'n'.repeat(255);
  for (const column of ['articulation', 'microphone', 'key']) {
    expect(readTable(rowTable({ [column]: most })).zones).toHaveLength(1);
    expect(faultsOf(rowTable({ [column]: `${most}n` }))).toMatchObject([
      { code: 'table-name-too-long', args: { column, length: 256, limit: 255 } },
    ]);
  }
  expect(readTable(rowTable({ microphone: `${most}|b` })).zones).toHaveLength(2);
});

test('a long cell is cut in messages', () => {
  const [fault] = faultsOf(rowTable({ keys: 'x'.repeat(5_000) }));
  expect(fault!.args).toEqual({ column: 'keys', value: `${'x'.repeat(59)}…` });
});

test('all that is wrong is told at once, in the order of the file, up to 20', () => {
  expect(faultLines('keys,bytes,bits\nH2,big,\n1,1,\n2,1,18\n')).toEqual([
    'table-cell 2 1',
    'table-cell 2 4',
    'table-cell 4 5',
  ]);
  const many = Array.from({ length: 30 }, () => 'H2,1').join('\n');
  expect(faultLines(`keys,bytes\n${many}`)).toHaveLength(20);
});

test('numbers with a comma where something else divides the cells', () => {
  for (const mark of [';', '\t']) {
    const table =
      ['keys', 'seconds', 'rate'].join(mark) + '\n' + ['60', '0,5', '44,1 kHz'].join(mark);
    expect(readTable(table).samples[0]).toMatchObject({ frames: 22_050, rate: 44_100 });
  }
  expect(faultLines('keys,seconds\n60,"0,5"')).toEqual(['table-cell 2 4']);
});
