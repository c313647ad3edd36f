import fc from 'fast-check';
import { expect, test } from 'vitest';
import { paragraph, splitWords } from '../../src/report/paragraph.ts';
import { cutMiddle, displayWidth, wrapWords } from '../../src/report/text-width.ts';

// Widths: Unicode Standard Annex 11, East Asian Width (W and F take two columns), and Mn/Me none.
test.each([
  ['Vln 1', 5],
  ['Flûte', 5],
  ['e\u0301', 1],
  ['琴', 2],
  ['ｖ', 2],
  ['🎻', 2],
  ['─…', 2],
  ['', 0],
])('%j takes %d columns', (text, width) => {
  expect(displayWidth(text)).toBe(width);
});

test.each([
  ['Violins 1 legato slow', 13, '…', 'Violin…o slow'],
  ['Violins 1 legato slow', 13, '...', 'Violin...slow'],
  ['Violins', 7, '…', 'Violins'],
  ['Violins', 6, '…', 'Vio…ns'],
  ['Violins', 2, '…', 'Vi'],
  ['琴琴琴琴', 5, '…', '琴…琴'],
  ['abcde\u0301f', 5, '…', 'ab…e\u0301f'],
])('%j cut to %d columns with %s is %j', (text, width, dots, cut) => {
  expect(cutMiddle(text, width, dots)).toBe(cut);
});

test('what is cut never takes more than its room', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 1, max: 40 }), (text, width) => {
      expect(displayWidth(cutMiddle(text, width, '…'))).toBeLessThanOrEqual(width);
    }),
  );
});

test('words go on lines', () => {
  expect(wrapWords(['a', 'bb', 'ccc', 'dddddd'], 4)).toEqual(['a bb', 'ccc', 'dddddd']);
});

test.each([
  ['Keep 214 of 1 203 zones', ['Keep', '214', 'of', '1 203', 'zones']],
  ['41.2 MiB of 1 131.0 MiB', ['41.2 MiB', 'of', '1 131.0 MiB']],
  ['saved (69 %).', ['saved', '(69 %).']],
  ['812 B there', ['812 B', 'there']],
  ['12 Bars', ['12', 'Bars']],
])('%j breaks at words, never inside a figure', (text, words) => {
  expect(splitWords(text)).toEqual(words);
});

test('a paragraph is painted word by word, so a line may end anywhere', () => {
  const paint = (text: string): string => `<${text}>`;
  const parts = [{ text: 'Keep 1 203 zones:', paint }, 'all of them'];
  expect(paragraph(parts, null)).toEqual(['<Keep 1 203 zones:> all of them']);
  expect(paragraph(parts, 12)).toEqual(['<Keep> <1 203>', '<zones:> all', 'of them']);
});
