import { expect, test } from 'vitest';
import { fixed, keys, name, several, words } from '../../src/report/cell.ts';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { layOut, notShown, type Column, type Row } from '../../src/report/table.ts';

const look = (width: number | null, ascii = false): Look => ({
  colors: plainColors,
  ascii,
  width,
});

const columns: readonly Column[] = [
  { title: ['Name'], align: 'left', min: 6 },
  { title: ['Bars', 'played'], align: 'right', leaveOut: 1 },
  { title: ['Notes'], align: 'right' },
];
const rows: readonly Row[] = [
  [name('Violins 1 legato', look(null)), fixed('7'), fixed('1 204')],
  'rule',
  [name('Harp', look(null)), fixed('12'), fixed('86')],
];

test('numbers stand right, rules are as wide as their columns, lines end where their text ends', () => {
  expect(layOut(columns, rows, look(null)).text.split('\n')).toEqual([
    '                    Bars',
    'Name              played  Notes',
    '────────────────  ──────  ─────',
    'Violins 1 legato       7  1 204',
    '────────────────  ──────  ─────',
    'Harp                  12     86',
  ]);
});

test('a name is cut before a column is left out', () => {
  const long: readonly Row[] = [
    ...rows,
    [name('Violins 1 legato very slow', look(null)), fixed('7'), fixed('9')],
  ];
  const { text, leftOut } = layOut(columns, long, look(36));
  expect(leftOut).toEqual([]);
  expect(text.split('\n').at(-1)).toBe('Violins 1 l…very slow       7      9');
});

test('where cutting is not enough the column that matters least goes, and is named', () => {
  const wide: readonly Column[] = [
    ...columns,
    { title: ['Quite a long heading'], align: 'left', leaveOut: 2 },
  ];
  const { leftOut } = layOut(wide, rows, look(36));
  expect(leftOut).toEqual(['quite a long heading']);
  expect(notShown(leftOut, look(null))).toEqual(['Not shown in this width: quite a long heading.']);
});

test('nothing is said when every column is shown', () => {
  expect(notShown([], look(null))).toEqual([]);
});

test('cells of several lines keep their colour in their column', () => {
  const paint = (text: string): string => `\u001b[33m${text}\u001b[39m`;
  const cell = { ...words('one two'), whole: 'one\ntwo', paint };
  const { text } = layOut(
    [
      { title: ['A'], align: 'left' },
      { title: ['B'], align: 'left' },
    ],
    [[cell, fixed('x')]],
    look(null),
  );
  expect(text.split('\n').slice(2)).toEqual([
    '\u001b[33mone\u001b[39m  x',
    '\u001b[33mtwo\u001b[39m',
  ]);
});

test('no colours come from the table library', () => {
  expect(layOut(columns, rows, look(null)).text).not.toContain('\u001b');
});

test.each([
  [Infinity, 'C2-E2 (36-40), G5 (79)'],
  [21, 'C2…G5 (36…79), 6 keys'],
  [20, 'C2…G5 (36…79)'],
  [12, '36…79'],
  [3, '36…79'],
])('keys in %d columns', (width, text) => {
  const ranges = [
    [36, 40],
    [79, 79],
  ] as const;
  expect(keys(ranges, look(null)).fit(width)).toBe(text);
});

test('one range of keys has no gap to mark', () => {
  expect(keys([[36, 76]], look(null)).fit(6)).toBe('36-76');
  expect(keys([], look(null)).whole).toBe('-');
});

test('keys follow the octave of middle C, in ASCII with two points', () => {
  const ranges = [
    [36, 40],
    [79, 79],
  ] as const;
  expect(keys(ranges, { ...look(null, true), middleC: 3 }).fit(17)).toBe('C1..G4 (36..79)');
});

test.each([
  [Infinity, 'CC1 0-96, CC11 30-127, CC64 0-127'],
  [32, 'CC 1, 11, 64'],
  [11, 'CC 1, +2'],
  [7, '3 controllers'],
])('several things in %d columns', (width, text) => {
  const cell = several({
    items: [
      { text: 'CC1 0-96', short: '1' },
      { text: 'CC11 30-127', short: '11' },
      { text: 'CC64 0-127', short: '64' },
    ],
    prefix: 'CC ',
    one: 'controller',
    many: 'controllers',
  });
  expect(cell.fit(width)).toBe(text);
});

test('a name of 200 000 characters does not make a table of that width', () => {
  expect(name('x'.repeat(200_000), look(null)).whole.length).toBe(120);
});
