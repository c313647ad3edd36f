import { expect, test } from 'vitest';
import type { Test } from '../../../src/instruments/program.ts';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { faultsOf, readTable, remarksOf, startLines } from './reading.ts';

/** A table of articulations and their switches, a row each, on keys 36-96. */
const switched = (
  ...rows: readonly (readonly [articulation: string, selector: string])[]
): string =>
  ['articulation;switch;keys;bytes', ...rows.map((row) => `${row.join(';')};36-96;1`)].join('\n');

const plainTests = (tests: readonly Test[]): string =>
  tests
    .filter(({ doubt }) => doubt === 0)
    .map(({ lo, hi }) => `${String(lo)}-${String(hi)}`)
    .join();

/** Name, switch, and the plain gate of its starts with the signal it listens to. */
const gatesOf = ({ articulations, program }: Instrument): readonly string[] =>
  articulations.map(({ name, switch: selector }, i) => {
    const starts = program.starts.filter(({ articulation }) => articulation === i);
    const gates = [...new Set(starts.map(({ gate }) => gate))];
    const conditions = gates.flatMap((gate) => program.gates[gate]!);
    const tests = conditions.map(
      ({ signal, tests: all }) => `${JSON.stringify(program.signals[signal])} ${plainTests(all)}`,
    );
    return [name, selector ?? 'no switch', ...tests].join('; ');
  });

test('keyswitches are one signal over all of their keys', () => {
  const keys = '{"kind":"switch","keys":[[24,24],[26,26]],"initial":null}';
  expect(gatesOf(readTable(switched(['legato', 'D1'], ['pizz', '24'])))).toEqual([
    `legato; D1 (26); ${keys} 26-26`,
    `pizz; C1 (24); ${keys} 24-24`,
  ]);
});

test.each([
  ['program 5', 'program 5', '{"kind":"program"} 5-5'],
  ['program 5-9', 'program 5-9', '{"kind":"program"} 5-9'],
  ['channel 3', 'channel 3', '{"kind":"channel","selects":true} 3-3'],
  [
    'cc 32: 0-20',
    'CC 32 0-20',
    '{"kind":"controller","number":32,"initial":null,"selects":true} 0-20',
  ],
])('%s is shown as %s and listens to %s', (written, shown, gate) => {
  const [first] = gatesOf(readTable(switched(['a', written], ['b', 'C1'])));
  expect(first).toBe(`a; ${shown}; ${gate}`);
});

test('one controller that switches and fades is two signals', () => {
  const { program } = readTable(
    'articulation;switch;keys;controllers;bytes\na;cc1:0-9;1;1:0-63;1\nb;cc1:10-127;1;1:64-127;1\n',
  );
  expect(program.signals).toEqual([
    { kind: 'controller', number: 1, initial: null, selects: true },
    { kind: 'controller', number: 1, initial: null },
  ]);
  expect(program.gates.flat().map(({ signal }) => signal)).toEqual([0, 0]);
  expect(program.starts.flatMap(({ fades }) => fades)).toEqual([
    { signal: 1, lo: 0, hi: 63 },
    { signal: 1, lo: 64, hi: 127 },
  ]);
});

test('one named articulation needs no switch and asks for none', () => {
  const table = readTable(switched(['legato', 'C1'], ['Legato ', ''], ['', '']));
  expect(table.program.gates).toEqual([[]]);
  expect(table.articulations.map((one) => [one.name, one.switch])).toEqual([
    ['legato', 'C1 (24)'],
    ['every articulation', null],
  ]);
  expect(remarksOf(table)).toEqual([]);
});

test('names are compared folded, and one row with the switch is enough', () => {
  const table = readTable(
    switched(['Légato', ''], ['pizz', '25'], ['LEGATO', 'C1'], ['legato', '24']),
  );
  expect(table.articulations.map((one) => [one.name, one.switch])).toEqual([
    ['Légato', 'C1 (24)'],
    ['pizz', 'C#1 (25)'],
  ]);
  expect(table.program.starts.map(({ articulation }) => articulation)).toEqual([0, 1, 0, 0]);
});

test('rows without an articulation always sound', () => {
  const table = readTable(
    switched(['', ''], ['a', 'C1'], ['b', 'D1'], ['Every  articulation', '']),
  );
  expect(table.articulations.map(({ name }) => name)).toEqual(['every articulation', 'a', 'b']);
  expect(table.program.starts.map(({ gate }) => gate)).toEqual([0, 1, 2, 0]);
});

test('where some have no switch those always sound', () => {
  const table = readTable(switched(['a', 'C1'], ['b', ''], ['c', 'D1']));
  expect(table.program.starts.map(({ gate, doubt }) => [gate, doubt])).toEqual([
    [1, 0],
    [0, 0],
    [2, 0],
  ]);
  expect(remarksOf(table)).toMatchObject([
    { code: 'table-always-sounds', severity: 'note', args: { articulations: ['b'], more: 0 } },
  ]);
});

test('where none has a switch nothing tells which plays', () => {
  const table = readTable(switched(['a', ''], ['b', ''], ['', '']));
  expect(startLines(table)).toEqual([
    'a C2-C7: note-on 36-96 1-127 gate 0 no-switch',
    'b C2-C7: note-on 36-96 1-127 gate 0 no-switch',
    'C2-C7: note-on 36-96 1-127 gate 0',
  ]);
  expect(remarksOf(table)).toMatchObject([
    { code: 'table-no-switch', severity: 'note', args: { articulations: ['a', 'b'] } },
  ]);
});

test('an articulation has one switch', () => {
  expect(faultsOf(switched(['a', 'C1'], ['b', 'D1'], ['A', 'E1']))).toMatchObject([
    {
      code: 'table-switch-differs',
      at: { line: 4, column: 3 },
      args: { articulation: 'a', switch: 'E1', other: 'C1', line: 2 },
    },
  ]);
});

test('a switch needs an articulation to call up', () => {
  expect(faultsOf(switched(['a', 'C1'], ['', 'D1']))).toMatchObject([
    { code: 'table-switch-alone', at: { line: 3, column: 2 }, args: { switch: 'D1' } },
  ]);
});

test.each([
  [
    ['C1', '24', 'D1'],
    ['a', 'b'],
  ],
  [
    ['program 0-9', 'program 10', 'program 5'],
    ['a', 'c'],
  ],
  [
    ['program 0-90', 'program 10', 'program 15'],
    ['a', 'b', 'c'],
  ],
  [
    ['cc1:0-9', 'cc2:0-9', 'cc1:9'],
    ['a', 'c'],
  ],
  [['channel 1', 'program 1', 'cc1:1'], []],
])('of %j, %j share', (switches, expected) => {
  const rows = switches.map((selector, i) => ['abc'[i]!, selector] as const);
  const all = readTable(switched(...rows)).findings.flatMap((found) =>
    found.code === 'table-switch-shared' ? found.args.articulations : [],
  );
  expect(all).toEqual(expected);
});

test('a keyswitch inside the range of some zones is usual; inside that of all it is a note', () => {
  const table = (last: string): Instrument =>
    readTable(`articulation;switch;keys;bytes\na;C1;0-60;1\nb;D1;20-70|24-80;1\n;;${last};1\n`);
  expect(remarksOf(table('0-127'))).toMatchObject([
    { code: 'table-switch-plays', severity: 'note', args: { keys: ['C1 (24)', 'D1 (26)'] } },
  ]);
  expect(remarksOf(table('25-127'))).toMatchObject([{ args: { keys: ['D1 (26)'] } }]);
  expect(remarksOf(table('36-127'))).toEqual([]);
});

test('layers are the pairs of velocities and controllers, as they first appear', () => {
  const table = readTable(
    [
      'articulation;keys;velocities;controllers;bytes',
      'a;1|2;64-127|1-63;;1',
      'b;1;1-63;;1',
      'a;3;1-63;;1',
      'a;4;1-63;11:0-9 & 1:0-9|1:0-9&11:0-9;1',
    ].join('\n'),
  );
  expect(table.articulations.map(({ layers }) => layers)).toEqual([
    [
      { velocity: [64, 127], controllers: [], zones: [0, 2] },
      { velocity: [1, 63], controllers: [], zones: [1, 3, 5] },
      {
        velocity: [1, 63],
        controllers: [
          { number: 1, range: [0, 9] },
          { number: 11, range: [0, 9] },
        ],
        zones: [6, 7],
      },
    ],
    [{ velocity: [1, 63], controllers: [], zones: [4] }],
  ]);
});
