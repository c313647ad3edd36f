import fc from 'fast-check';
import { expect, test } from 'vitest';
import { fold } from '../../src/notation/fold.ts';

// Decompositions: Unicode, UnicodeData.txt (from memory): é is e + U+0301, ﬁ has none that is
// canonical, Å (U+212B) and Å (U+00C5) both are A + U+030A.

test.each([
  ['Legato', 'legato'],
  ['  Vln   1 ', 'vln 1'],
  ['Vln\u00a01\u2009div', 'vln 1 div'],
  ['Vln\t1\r\ndiv', 'vln 1 div'],
  ['Célesta', 'celesta'],
  ['Ce\u0301lesta', 'celesta'],
  ['\u212bke', 'ake'],
  ['\u00c5KE', 'ake'],
  ['Große Trommel', 'große trommel'],
  ['Bläser', 'blaser'],
  ['ИЙ', 'ии'],
  ['\ufb01ddle', '\ufb01ddle'],
  ['c♯ 4', 'c♯ 4'],
  ['a\u2010b\u2011c\u2012d\u2013e\u2014f\u2015g\u2212h', 'a-b-c-d-e-f-g-h'],
  ['\u2018a\u2019 \u201ab\u201b', "'a' 'b'"],
  ['\u201ca\u201d \u201eb\u201f', '"a" "b"'],
  // Their neighbours stay: the double vertical line, the dagger and minus-or-plus.
  ['\u2016 \u2020 \u2213', '\u2016 \u2020 \u2213'],
  ['', ''],
  [' \u00a0\u3000', ''],
])('%j folds to %j', (text, folded) => {
  expect(fold(text)).toBe(folded);
});

test('names that differ stay apart', () => {
  expect(fold('Vln 1')).not.toBe(fold('Vln 11'));
  expect(fold('Vln1')).not.toBe(fold('Vln 1'));
});

test('folding twice is folding once, and case, composition and blanks make no difference', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (text) => {
      const folded = fold(text);
      expect(fold(folded)).toBe(folded);
      expect(fold(text.normalize('NFC'))).toBe(folded);
      expect(fold(text.normalize('NFD'))).toBe(folded);
      expect(fold(`\u00a0${text.replaceAll(' ', '\u2009 ')}\n`)).toBe(folded);
    }),
    { numRuns: 1000 },
  );
});

test('a long run of marks is no trouble', () => {
  // Putting marks of two classes in order one by one takes the square of their number.
  const hostile = `a${'\u0301\u0323'.repeat(500_000)}`;
  expect(fold(hostile)).toBe('a');
});
