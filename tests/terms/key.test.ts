import { expect, test } from 'vitest';
import { keyLabel, keyName, keyRangeLabel } from '../../src/terms/key.ts';

// Key 60 is C4, C3 or C5 by program: common practice. The rest is counting semitones.

test.each([
  [60, undefined, 'C4'],
  [60, 3, 'C3'],
  [60, 5, 'C5'],
  [0, undefined, 'C-1'],
  [0, 3, 'C-2'],
  [11, undefined, 'B-1'],
  [12, undefined, 'C0'],
  [69, undefined, 'A4'],
  [61, undefined, 'C#4'],
  [127, undefined, 'G9'],
])('key %d with middle C in octave %s is %s', (key, middleC, name) => {
  expect(keyName(key, middleC)).toBe(name);
});

test('a key bears its number', () => {
  expect(keyLabel(60)).toBe('C4 (60)');
  expect(keyLabel(60, 3)).toBe('C3 (60)');
});

test('a range bears its numbers, a single key is no range', () => {
  expect(keyRangeLabel([36, 76])).toBe('C2-E5 (36-76)');
  expect(keyRangeLabel([36, 76], 3)).toBe('C1-E4 (36-76)');
  expect(keyRangeLabel([66, 66])).toBe('F#4 (66)');
});
