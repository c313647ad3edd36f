import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { fold } from '../../src/notation/fold.ts';
import { bordersOf, findPiece, type Letters } from '../../src/template/patterns/find-piece.ts';
import { foldName } from '../../src/template/patterns/folded-name.ts';
import { matchPattern } from '../../src/template/patterns/match-pattern.ts';
import type { Pattern } from '../../src/template/patterns/pattern.ts';
import { anyText } from './any-text.ts';
import { patternOf } from './patterns.ts';

const match = (pattern: string, name: string): Record<string, string> | null => {
  const captures = matchPattern(patternOf(pattern), name);
  return captures === null ? null : Object.fromEntries(captures);
};

describe('a name', () => {
  test.each([
    ['Hn*', 'Hn', {}],
    ['Hn*', 'HN 1', {}],
    ['Hn*', 'A Hn', null],
    ['Hn', 'Hn 1', null],
    ['*click*', 'The Click track', {}],
    ['', '', {}],
    ['*', '', {}],
    ['Vc {art}', 'Vc leg', { art: 'leg' }],
    // A blank in the pattern is a blank in the name.
    ['Vc {art}', 'Vc', null],
    ['Vc{art}', 'Vc', { art: '' }],
    // As the name spells it.
    ['vc {art}', ' VC   Légato  Lento ', { art: 'Légato  Lento' }],
    ['Célesta {n}', 'Ce\u0301lesta 2', { n: '2' }],
    // Dashes and quotation marks of any kind are the plain ones; what is taken stays as written.
    ['Vln 1 - {art}', 'Vln 1 \u2013 legato\u2212slow', { art: 'legato\u2212slow' }],
    ['Player\u2019s {x}\u2014*', "Player's \u201cone\u201d-2", { x: '\u201cone\u201d' }],
    // Each wildcard but the last takes as little as it can.
    ['{a} {b}', 'Vln 1 leg', { a: 'Vln', b: '1 leg' }],
    ['{a}-{b}-{c}', 'a-b-c-d', { a: 'a', b: 'b', c: 'c-d' }],
    ['{a}aab', 'aaaab', { a: 'aa' }],
    ['*aab*', 'aaaab', {}],
    ['aba*aba', 'aba', null],
    ['aba*aba', 'abaaba', {}],
    ['a*b*a', 'aba', {}],
    ['a*b*a', 'aa', null],
    [String.raw`100\% \*`, String.raw`100\% *`, {}],
    [String.raw`*\**`, 'solo *', {}],
    [String.raw`*\**`, 'solo', null],
    // The small sigma at the end of a word is the small sigma.
    ['ΟΔΟΣ*', 'οδος 1', {}],
    ['*ος 1', 'ΟΔΟΣ 1', {}],
    // One letter that folds to three (Hangul): taken whole.
    ['한{x}', '한국', { x: '국' }],
  ] as const)('%j on %j', (pattern, name, captures) => {
    expect(match(pattern, name)).toEqual(captures);
  });

  it('an accent that stands by itself goes with the letter before it', () => {
    expect(match('{a}f', 'e\u0301f')).toEqual({ a: 'e\u0301' });
    expect(match('e{a}', 'e\u0301f')).toEqual({ a: 'f' });
  });

  it('counts up to 2 000 characters', () => {
    expect(match('*x', `${'a'.repeat(1_999)}x`)).toEqual({});
    expect(match('*x', `${'a'.repeat(2_000)}x`)).toBeNull();
    expect(match('*a', `${'a'.repeat(2_000)}x`)).toEqual({});
  });
});

const texts = fc.oneof(
  fc.string({ unit: fc.constantFrom('a', 'b', ' ', '-', '*', '{', '}', '\\', 'É', 'e\u0301') }),
  anyText(30),
);

test('folding with the way back is folding, but for the sigmas', () => {
  fc.assert(
    fc.property(texts, (text) => {
      const { folded, from, to } = foldName(text);
      expect(folded).toBe(fold(text).replaceAll('ς', 'σ'));
      expect([from.length, to.length]).toEqual([folded.length, folded.length]);
      from.forEach((start, i) => {
        // What stands there folds to the character (or is the blank that stands for a run).
        const part = fold(text.slice(start, to[i])).replaceAll('ς', 'σ');
        expect(folded[i] === ' ' ? '' : folded[i]).toBe(
          folded[i] === ' ' ? part : part[i - from.indexOf(start)],
        );
      });
    }),
    { numRuns: 1_000 },
  );
});

/** Every way to share out the folded name among the wildcards, the shortest first. */
const naive = ({ pieces, captures }: Pattern, name: string): Record<string, string> | null => {
  const go = (piece: number, at: number): readonly string[] | null => {
    if (!name.startsWith(pieces[piece]!, at)) return null;
    const end = at + pieces[piece]!.length;
    if (piece === pieces.length - 1) return end === name.length ? [] : null;
    for (let next = end; next <= name.length; next += 1) {
      const rest = go(piece + 1, next);
      if (rest !== null) return [name.slice(end, next), ...rest];
    }
    return null;
  };
  const runs = go(0, 0);
  if (runs === null) return null;
  return Object.fromEntries(
    captures.flatMap((capture, i) => (capture === null ? [] : [[capture, runs[i]!.trim()]])),
  );
};

const letters = fc.constantFrom('a', 'b', 'ab', 'A', ' ');
const piece = fc.array(letters, { minLength: 1, maxLength: 4 }).map((all) => all.join(''));
const wildcard = fc.boolean();

/** Patterns with something between any two wildcards, and names of the same few letters. */
const patterns = fc
  .tuple(
    fc.option(piece),
    fc.array(fc.tuple(wildcard, piece), { maxLength: 4 }),
    fc.option(wildcard),
  )
  .map(([start, middle, end]) => {
    let captures = 0;
    const wild = (named: boolean): string => (named ? `{c${String(captures++)}}` : '*');
    return (
      (start ?? '') +
      middle.map(([named, text]) => wild(named) + text).join('') +
      (end === null ? '' : wild(end))
    );
  });
const names = fc.array(letters, { maxLength: 14 }).map((all) => all.join(''));

test('matches as a matcher does that tries everything', () => {
  let matched = 0;
  fc.assert(
    fc.property(patterns, names, (text, name) => {
      const pattern = patternOf(text);
      const captures = match(text, name);
      const folded = captures && Object.entries(captures).map(([key, value]) => [key, fold(value)]);
      const expected = naive(pattern, fold(name));
      expect(folded && Object.fromEntries(folded)).toEqual(expected);
      if (expected !== null) matched += 1;
    }),
    { numRuns: 5_000 },
  );
  // A property that hardly ever matches would prove little.
  expect(matched).toBeGreaterThan(250);
});

test('any text that makes a pattern is matched by itself, escaped', () => {
  fc.assert(
    fc.property(texts, (text) => {
      const escaped = text.replace(/[*{}\\]/gu, String.raw`\$&`);
      expect(match(escaped, text)).toEqual({});
    }),
  );
});

describe('a search for a piece', () => {
  /** A text that counts how often it is looked at. */
  const counted = (text: string): Letters & { looks: number } => ({
    looks: 0,
    length: text.length,
    charCodeAt(index) {
      this.looks += 1;
      return text.charCodeAt(index);
    },
  });

  // The worst for a search that starts over: all but the last letter fits everywhere.
  test.each([
    ['a'.repeat(2_000), `${'a'.repeat(249)}b`],
    ['ab'.repeat(1_000), `${'ab'.repeat(124)}aa`],
    [`${'a'.repeat(249)}c`.repeat(8), `${'a'.repeat(249)}b`],
  ])('takes linear time', (text, piece) => {
    const [counting, part] = [counted(text), counted(piece)];
    const borders = bordersOf(part);
    expect(part.looks).toBeLessThanOrEqual(6 * piece.length);
    part.looks = 0;
    expect(findPiece(counting, part, borders, 0)).toBe(-1);
    expect(counting.looks).toBeLessThanOrEqual(text.length);
    expect(part.looks).toBeLessThanOrEqual(3 * text.length);
  });

  it('finds what indexOf finds', () => {
    fc.assert(
      fc.property(names, piece, fc.nat(6), (text, part, from) => {
        expect(findPiece(text, part, bordersOf(part), from)).toBe(text.indexOf(part, from));
      }),
      { numRuns: 2_000 },
    );
  });
});
