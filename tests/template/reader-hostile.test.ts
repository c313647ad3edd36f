import { describe, expect, test } from 'vitest';
import { codesOf, errorOf, read, readFiles, path } from './reader-cases.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { InputError } from '../../src/terms/errors.ts';

const limit = 2 ** 20;

/** A text repeated up to the largest size that is read. */
const filled = (piece: string, before = '', after = ''): string =>
  before + piece.repeat(Math.floor((limit - before.length - after.length) / piece.length)) + after;

const counted = (piece: (i: number) => string, before = '', after = ''): string => {
  let text = before;
  for (let i = 0; text.length < limit - 40 - after.length; i += 1) text += piece(i);
  return text + after;
};

/**
 * Files of 1 MiB made to take long: what is nested, repeated, never closed or wrong everywhere. Each
 * ends in its error, long before the time is up.
 */
describe('the largest files that are read', () => {
  test.each<[string, string, string]>([
    ['brackets that open', filled('['), 'template-too-deep'],
    ['keys in brackets', filled('{a: '), 'template-too-deep'],
    ['dashes', filled('- '), 'template-too-deep'],
    ['question marks', filled('? '), 'template-too-deep'],
    ['colons', filled(': '), 'template-too-deep'],
    ['keys in keys', counted((i) => `${' '.repeat(i)}a:\n`), 'template-too-deep'],
    ['brackets that close', filled(']'), 'template-yaml'],
    ['commas', filled(',', '['), 'template-yaml'],
    ['a quote with slips', filled('\\q', '"', '"'), 'template-yaml'],
    ['an open quote', filled('a ', '"'), 'template-yaml'],
    ['tabs', filled('\ta: b\n', 'a:\n'), 'template-yaml'],
    ['keys on one line', filled('a: a: '), 'template-yaml'],
    ['documents', filled('---\n'), 'template-yaml'],
    ['ends of documents', filled('...\n'), 'template-yaml'],
    ['anchors', filled('&a '), 'template-shorthand'],
    ['aliases', filled('*a '), 'template-shorthand'],
    ['tags', filled('!a '), 'template-shorthand'],
    ['instructions', filled('%a\n'), 'template-shorthand'],
    ['one text', filled('a'), 'template-not-keys'],
    ['one key', filled('a', '', ': b'), 'template-yaml'],
    ['empty lines', filled('\n'), 'template-empty'],
    ['remarks', filled('#\n'), 'template-empty'],
    ['a block of text', filled(' a\n', 'a: |\n'), 'template-key-unknown'],
    ['the same key', filled('a: 1\n'), 'template-key-unknown'],
    ['keys', counted((i) => `k${String(i)}: 1\n`), 'template-key-unknown'],
    ['keys without values', counted((i) => `k${String(i)},`, '{', '}'), 'template-key-unknown'],
    ['machines', counted((i) => ` m${String(i)}: {}\n`, 'machines:\n'), 'template-key-missing'],
    [
      'machines of nothing',
      counted((i) => ` m${String(i)}:\n`, 'machines:\n'),
      'template-key-bare',
    ],
    ['numbers for rules', filled('- 1\n', 'routes:\n'), 'template-value'],
    ['rules of nothing', filled('- {}\n', 'routes:\n'), 'route-without-tracks'],
    [
      'names of instruments',
      filled('- ab\n', 'routes:\n- track: a\n  instrument:\n  '),
      'template-undeclared',
    ],
    [
      'patterns of stars',
      filled('*x', 'routes: [ { ignore: true, track: "', '" } ]'),
      'route-pattern',
    ],
    ['digits', filled('9', 'slack: '), 'template-value'],
    ['digits of memory', filled('9', 'machines: { a: { memory: ', ' GiB } }'), 'template-value'],
    ['blanks', filled(' ', 'slack: "60', 'ms"'), ''],
    ['accents', filled('\u0301', 'names: { "', '": legato }'), 'template-key-odd'],
  ])('%s', async (_, yaml, code) => {
    expect(new TextEncoder().encode(yaml).length).toBeLessThanOrEqual(2 * limit);
    const codes = await codesOf(read(yaml));
    expect(codes.length).toBeLessThanOrEqual(21);
    expect(codes[0] ?? '').toBe(code);
  });
});
