import { describe, expect, it, test } from 'vitest';
import { compilePattern } from '../../src/template/patterns/compile-pattern.ts';

/** By the rules of the design, section 8: `*`, `{captures}`, and a backslash before what is neither. */
describe('a pattern', () => {
  test.each([
    ['Vc leg', ['vc leg'], []],
    ['Vc {art}', ['vc ', ''], ['art']],
    ['*click*', ['', 'click', ''], [null, null]],
    ['  Hn*  a4 ', ['hn', ' a4'], [null]],
    ['{ Sect } - {Art}', ['', ' - ', ''], ['sect', 'art']],
    ['Célesta\u00a0{n}', ['celesta ', ''], ['n']],
    [String.raw`a\*b\{c\}d\\e\f`, [String.raw`a*b{c}d\e\f`], []],
    ['ends with \\', ['ends with \\'], []],
    ['', [''], []],
    ['   ', [''], []],
    ['{*}', ['', ''], ['*']],
  ] as const)('%j', (text, pieces, captures) => {
    expect(compilePattern(text)).toEqual({ text, pieces, captures });
  });

  it('may have 500 characters, however many bytes each takes', () => {
    expect(compilePattern('🎻'.repeat(500))).toHaveProperty('pieces');
    expect(compilePattern('🎻'.repeat(501))).toEqual({ problem: 'too-long', column: 501 });
    expect(compilePattern('x'.repeat(3_000_000))).toEqual({ problem: 'too-long', column: 501 });
  });

  test.each([
    ['Vc {art', 'brace-open', 4],
    ['🎻 {art', 'brace-open', 3],
    ['{a{b}}', 'brace-open', 1],
    ['Vc }', 'brace-close', 4],
    ['{a}}', 'brace-close', 4],
    ['Vc {}', 'capture-empty', 4],
    ['Vc {  }', 'capture-empty', 4],
    ['{a} {b} {A}', 'capture-twice', 9],
    ['**', 'wildcards-touch', 2],
    ['Vc {a}*', 'wildcards-touch', 7],
    ['{a}{b}', 'wildcards-touch', 4],
    // An accent without a letter folds to nothing.
    ['{a}\u0301{b}', 'wildcards-touch', 5],
  ] as const)('%j is none: %s at %i', (text, problem, column) => {
    expect(compilePattern(text)).toEqual({ problem, column });
  });
});
