import fc from 'fast-check';
import { expect, test } from 'vitest';
import { printable } from '../../src/terms/printable.ts';

test.each([
  ['an escape sequence', 'Vln\x1b[2J 1', 'Vln\\x1b[2J 1'],
  ['a control sequence of one byte', '\u009b31m', '\\x9b31m'],
  ['line ends and tabs', 'a\r\n\tb', 'a\\x0d\\x0a\\x09b'],
  ['NUL and DEL', '\0\x7f', '\\x00\\x7f'],
  ['a right-to-left override', '\u202egpj.mid', '\\u202egpj.mid'],
  ['isolates and marks', '\u2066x\u2069\u200f', '\\u2066x\\u2069\\u200f'],
  ['invisible joiners', 'a\u200bb\ufeffc', 'a\\u200bb\\ufeffc'],
  ['line and paragraph separators', '\u2028\u2029', '\\u2028\\u2029'],
  ['tag characters', '\u{e0041}', '\\u{e0041}'],
  ['half of a pair', 'a\ud83c', 'a\\ud83c'],
])('%s is written out', (_, text, shown) => {
  expect(printable(text)).toBe(shown);
});

test.each(['Flûte 2 – sul pont.', '琴 (低)', 'Кларнет', 'e\u0301', '🎻 solo', 'a\\b', ''])(
  '%j stays as it is',
  (text) => {
    expect(printable(text)).toBe(text);
  },
);

test('nothing that acts on a terminal is left, and twice changes nothing', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const shown = printable(text);
      // The categories are those the module names; bidi controls are all of Cf (Unicode 15, UAX 9, 2).
      expect(shown).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
      expect(printable(shown)).toBe(shown);
    }),
  );
});
