import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  parseKeyRange,
  parseKeyRanges,
  parseRange,
  parseRanges,
} from '../../src/notation/range.ts';
import { keyName } from '../../src/terms/key.ts';

// 0 to 127 is the range of a data byte: MIDI 1.0, Detailed Specification. Keys with middle C as C4:
// see key.test.ts.

test.each([
  ['1-40', 1, 40],
  ['1..40', 1, 40],
  ['1–40', 1, 40],
  ['1—40', 1, 40],
  ['1−40', 1, 40],
  ['1 - 40', 1, 40],
  ['\u00a01\u2009–\u200940 ', 1, 40],
  ['0-127', 0, 127],
  ['64', 64, 64],
  ['64-64', 64, 64],
  ['001-040', 1, 40],
])('%j is %d to %d', (text, lo, hi) => {
  expect(parseRange(text)).toEqual([lo, hi]);
  expect(parseKeyRange(text, 4)).toEqual([lo, hi]);
});

/** What spreadsheets make of 1-2 and of 1..2: common practice. */
const dates = [
  '01/02/2026',
  '1/2',
  '01.02.2026',
  '01.02',
  '2026-01-02',
  '1-Feb',
  '02-Jan',
  '2. Jan',
  '46024',
];

test.each([
  '',
  '-',
  '..',
  '1-',
  '-40',
  '1.40',
  '1...40',
  '1--40',
  '1-40-60',
  '40-1',
  '0-128',
  '128',
  '1000',
  '1,40',
  '1:40',
  '1-40|41',
  'a-b',
  'C2',
  ...dates,
])('%j is no range of velocities', (text) => {
  expect(parseRange(text)).toBeNull();
});

test.each([
  ['C2-C6', 36, 84],
  ['C2..C6', 36, 84],
  ['c2 – c6', 36, 84],
  ['C-1..G9', 0, 127],
  ['C-1-G9', 0, 127],
  ['C−1–G9', 0, 127],
  ['C-1', 0, 0],
  ['C4', 60, 60],
  ['F#3-Bb3', 54, 58],
  ['F♯3..B♭3', 54, 58],
  ['C\u00a02 - C 6', 36, 84],
  ['b2-b3', 47, 59],
  ['bb2-bb3', 46, 58],
])('keys %j are %j to %j', (text, lo, hi) => {
  expect(parseKeyRange(text, 4)).toEqual([lo, hi]);
});

test('names follow middle C, numbers do not', () => {
  expect(parseKeyRange('C2-C6', 3)).toEqual([48, 96]);
  expect(parseKeyRange('36-84', 3)).toEqual([36, 84]);
});

test.each([
  '',
  'C6-C2',
  'C2-',
  'C-1--1',
  '-C2',
  'C2-C',
  'C2-6',
  'C2-60',
  '36-C6',
  'C2-C10',
  'C2|C3',
  ...dates,
])('%j is no range of keys', (text) => {
  expect(parseKeyRange(text, 4)).toBeNull();
});

test.each([
  [
    '1-40|41-90|91-127',
    [
      [1, 40],
      [41, 90],
      [91, 127],
    ],
  ],
  [
    ' 1-40 | 41 ',
    [
      [1, 40],
      [41, 41],
    ],
  ],
  ['64', [[64, 64]]],
  [
    '41-127|1-40',
    [
      [41, 127],
      [1, 40],
    ],
  ],
])('velocities %j', (text, ranges) => {
  expect(parseRanges(text)).toEqual(ranges);
});

test.each(['', '|', '1-40|', '|1-40', '1-40||41', '1-40|41-128', '1-40,41-127', '1-40 every 3'])(
  '%j is no list of velocities',
  (text) => {
    expect(parseRanges(text)).toBeNull();
  },
);

test.each([
  [
    'C2-C3|C#3..C4',
    [
      [36, 48],
      [49, 60],
    ],
  ],
  [
    '36-48 | 60',
    [
      [36, 48],
      [60, 60],
    ],
  ],
  [
    'C4..G4 every 3',
    [
      [60, 62],
      [63, 65],
      [66, 67],
    ],
  ],
  [
    'C4..F4 every 3',
    [
      [60, 62],
      [63, 65],
    ],
  ],
  [
    'C4-E4\u00a0Every\u00a02',
    [
      [60, 61],
      [62, 63],
      [64, 64],
    ],
  ],
  [
    '60-62 every 1',
    [
      [60, 60],
      [61, 61],
      [62, 62],
    ],
  ],
  ['C4 every 3', [[60, 60]]],
  ['C4-D4 every 12', [[60, 62]]],
  [
    'C2-B2|C4-E4 every 4|C6',
    [
      [36, 47],
      [60, 63],
      [64, 64],
      [84, 84],
    ],
  ],
])('keys %j', (text, ranges) => {
  expect(parseKeyRanges(text, 4)).toEqual(ranges);
});

test.each([
  '',
  'C2|',
  'C2-C3|x',
  'C2-C3 every',
  'C2-C3 every 0',
  'C2-C3 every -1',
  'C2-C3 every 1.5',
  'C2-C3every 2',
  'every 3',
  'C2-C3 every 2 every 2',
  'C2-C3 every 1000',
])('%j is no list of keys', (text) => {
  expect(parseKeyRanges(text, 4)).toBeNull();
});

test('a list is as long as there are keys, not longer', () => {
  const keys = Array.from({ length: 128 }, (_, key) => key);
  expect(parseRanges(keys.join('|'))).toEqual(keys.map((key) => [key, key]));
  expect(parseRanges([...keys, 0].join('|'))).toBeNull();
  expect(parseKeyRanges('C-1..G9 every 1|'.repeat(1_000_000), 4)).toBeNull();
});

test('ranges of a few keys cover the whole range, once, without gaps', () => {
  const key = fc.integer({ min: 0, max: 127 });
  fc.assert(
    fc.property(key, key, fc.integer({ min: 1, max: 130 }), (a, b, step) => {
      const [lo, hi] = [Math.min(a, b), Math.max(a, b)];
      const ranges = parseKeyRanges(`${keyName(lo)}..${keyName(hi)} every ${step}`, 4) ?? [];
      const covered = ranges.flatMap(([from, to]) =>
        Array.from({ length: to - from + 1 }, (_, i) => from + i),
      );
      expect(covered).toEqual(Array.from({ length: hi - lo + 1 }, (_, i) => lo + i));
      for (const [from, to] of ranges.slice(0, -1)) expect(to - from + 1).toBe(step);
    }),
  );
});

test('what is written with any dash, dots and blanks is read back', () => {
  const value = fc.integer({ min: 0, max: 127 });
  const mark = fc.constantFrom('-', '–', '−', '..', ' - ', '\u00a0–\u00a0', ' .. ');
  fc.assert(
    fc.property(value, value, mark, fc.constantFrom(3, 4, 5), (a, b, between, middleC) => {
      const [lo, hi] = [Math.min(a, b), Math.max(a, b)];
      const names = `${keyName(lo, middleC)}${between}${keyName(hi, middleC)}`;
      expect(parseRange(`${lo}${between}${hi}`)).toEqual([lo, hi]);
      expect(parseKeyRange(names, middleC)).toEqual([lo, hi]);
    }),
  );
});
