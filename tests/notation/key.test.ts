import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseKey, parseMiddleC } from '../../src/notation/key.ts';
import { keyName } from '../../src/terms/key.ts';

// Key 60 is middle C: MIDI 1.0, Detailed Specification, note numbers. That it is called C4, C3 or C5
// by program: common practice. The rest is counting semitones.

test.each([
  ['C2', 2],
  ['C3', 3],
  ['C4', 4],
  ['C5', 5],
  ['C6', 6],
  ['c4', 4],
  ['\u00a0C 4 ', 4],
])('middle C as %j is octave %d', (text, octave) => {
  expect(parseMiddleC(text)).toBe(octave);
});

test.each(['', 'C', '4', '60', 'C1', 'C7', 'C-4', 'C44', 'D4', 'C#4', 'C4 C5'])(
  'middle C is not %j',
  (text) => {
    expect(parseMiddleC(text)).toBeNull();
  },
);

test.each([
  ['C4', 60],
  ['c4', 60],
  ['D4', 62],
  ['E4', 64],
  ['F4', 65],
  ['G4', 67],
  ['A4', 69],
  ['B4', 71],
  ['F#3', 54],
  ['F♯3', 54],
  ['c♯4', 61],
  ['Bb-1', 10],
  ['B♭-1', 10],
  ['B♭−1', 10],
  ['B♭–1', 10],
  ['C♮4', 60],
  ['C-1', 0],
  ['G9', 127],
  // A flat on C and a sharp on B cross the octave.
  ['Cb4', 59],
  ['B#3', 60],
  ['E#4', 65],
  ['Fb4', 64],
  ['b3', 59],
  ['bb3', 58],
  ['B#-2', 0],
  // As spreadsheets and copied manuals have them
  ['C#4 ', 61],
  ['\u00a0C#\u00a04\u2009', 61],
  ['C # 4', 61],
  ['60', 60],
  ['0', 0],
  ['127', 127],
  [' 60\u00a0', 60],
  ['007', 7],
])('%j is key %d where middle C is C4', (text, key) => {
  expect(parseKey(text, 4)).toBe(key);
});

test.each([
  ['C3', 3, 60],
  ['C-2', 3, 0],
  ['G8', 3, 127],
  ['C5', 5, 60],
  ['C0', 5, 0],
  ['G10', 5, 127],
  ['C-1', 3, 12],
])('%j with middle C in octave %d is key %d', (text, middleC, key) => {
  expect(parseKey(text, middleC)).toBe(key);
});

test('a number is the same key whatever octave middle C bears', () => {
  for (const middleC of [2, 3, 4, 5, 6]) expect(parseKey('61', middleC)).toBe(61);
});

test.each([
  '',
  'C',
  '#4',
  'H4',
  'C##4',
  'C4#',
  'Cis4',
  'C4-C5',
  'C--1',
  'C100',
  'G#9',
  'Cb-1',
  'C-2',
  '128',
  '1000',
  '-1',
  '60.0',
  '6e1',
  'C 4 4',
  // A date that was a range of keys once
  '02.01.2026',
])('%j is no key', (text) => {
  expect(parseKey(text, 4)).toBeNull();
});

test('every name a report prints is read back', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 127 }),
      fc.constantFrom(2, 3, 4, 5, 6),
      (key, middleC) => {
        const name = keyName(key, middleC);
        expect(parseKey(name, middleC)).toBe(key);
        expect(parseKey(name.toLowerCase().replace('#', '♯'), middleC)).toBe(key);
      },
    ),
  );
});

test('a flat is the sharp of the key below', () => {
  for (const [flat, sharp] of ['Db C#', 'Eb D#', 'Gb F#', 'Ab G#', 'Bb A#'].map((p) =>
    p.split(' '),
  )) {
    expect(parseKey(`${flat}4`, 4)).toBe(parseKey(`${sharp}4`, 4));
    expect(parseKey(`${flat}4`, 4)).not.toBeNull();
  }
});

test('a cell full of blanks is no trouble', () => {
  expect(parseKey(`C${' '.repeat(1_000_000)}4`, 4)).toBe(60);
  expect(parseKey(`C${' '.repeat(1_000_000)}x`, 4)).toBeNull();
});
