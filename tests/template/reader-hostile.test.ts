import { describe, expect, test } from 'vitest';
import { codesOf, errorOf, read, readFiles, path } from './reader-cases.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { InputError } from '../../src/terms/errors.ts';

/** In bytes: the largest file that is read, and what the hostile ones here come to. */
const limit = 2 ** 20;
const large = limit / 4;

const lengthOf = (text: string): number => new TextEncoder().encode(text).length;

/** A text repeated until the file is large. */
const filled = (piece: string, before = '', after = ''): string => {
  const times = Math.floor((large - lengthOf(before) - lengthOf(after)) / lengthOf(piece));
  return before + piece.repeat(times) + after;
};

/** Pieces that differ, until the file is large. */
const counted = (piece: (i: number) => string, before = '', after = ''): string => {
  const pieces = [before];
  let length = before.length + after.length;
  for (let i = 0; length + piece(i).length <= large; i += 1) {
    pieces.push(piece(i));
    length += piece(i).length;
  }
  return [...pieces, after].join('');
};

/**
 * Files made to take long: what is nested, repeated, never closed or wrong everywhere. What took the
 * square of their size, or a moment for each slip, would not end in time.
 */
describe('a large file of', () => {
  test.each<[string, string, string]>([
    ['brackets that open', filled('['), 'yaml-too-deep'],
    ['keys in brackets', filled('{a: '), 'yaml-too-deep'],
    ['dashes', filled('- '), 'yaml-too-deep'],
    ['question marks', filled('? '), 'yaml-too-deep'],
    ['colons', filled(': '), 'yaml-too-deep'],
    ['keys in keys', counted((i) => `${' '.repeat(i)}a:\n`), 'yaml-too-deep'],
    ['brackets that close', filled(']'), 'yaml-syntax'],
    ['commas', filled(',', '['), 'yaml-syntax'],
    ['a quote with slips', filled('\\q', '"', '"'), 'yaml-syntax'],
    ['an open quote', filled('a ', '"'), 'yaml-syntax'],
    ['tabs', filled('\ta: b\n', 'a:\n'), 'yaml-syntax'],
    ['keys on one line', filled('a: a: '), 'yaml-too-deep'],
    ['documents', filled('---\n'), 'yaml-syntax'],
    ['ends of documents', filled('...\n'), 'yaml-syntax'],
    ['anchors', filled('&a '), 'yaml-shorthand'],
    ['aliases', filled('*a '), 'yaml-shorthand'],
    ['tags', filled('!a '), 'yaml-shorthand'],
    ['instructions', filled('%a\n'), 'yaml-shorthand'],
    ['one text', filled('a'), 'yaml-not-keys'],
    ['one key', filled('a', '', ': b'), 'yaml-syntax'],
    ['empty lines', filled('\n'), 'yaml-empty'],
    ['remarks', filled('#\n'), 'yaml-empty'],
    ['a block of text', filled(' a\n', 'a: |\n'), 'yaml-key-unknown'],
    ['the same key', filled('a: 1\n'), 'yaml-key-unknown'],
    ['keys', counted((i) => `k${String(i)}: 1\n`), 'yaml-key-unknown'],
    ['keys without values', counted((i) => `k${String(i)},`, '{', '}'), 'yaml-key-unknown'],
    ['machines', counted((i) => ` m${String(i)}: {}\n`, 'machines:\n'), 'yaml-key-missing'],
    ['machines of nothing', counted((i) => ` m${String(i)}:\n`, 'machines:\n'), 'yaml-key-bare'],
    ['numbers for rules', filled('- 1\n', 'routes:\n'), 'yaml-value'],
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
    ['digits', filled('9', 'slack: '), 'yaml-value'],
    ['digits of memory', filled('9', 'machines: { a: { memory: ', ' GiB } }'), 'yaml-value'],
    ['blanks', filled(' ', 'slack: "60', 'ms"'), ''],
    ['accents', filled('\u0301', 'names: { "', '": legato }'), 'yaml-key-odd'],
  ])('%s', async (_, yaml, code) => {
    expect(lengthOf(yaml)).toBeLessThanOrEqual(large);
    const codes = await codesOf(read(yaml));
    expect(codes.length).toBeLessThanOrEqual(21);
    expect(codes[0] ?? '').toBe(code);
  });
});

describe('size', () => {
  const files = (bytes: number): MemoryFiles =>
    new MemoryFiles({ [path]: `${'#'.repeat(bytes - 10)}\nslack: 0\n` });

  test('the largest file is read', async () => {
    expect(await codesOf(readFiles(files(limit)))).toEqual([]);
  });

  test.each([limit + 1, 2 * limit])(
    '%i bytes are refused and not read to their end',
    async (size) => {
      const disk = files(size);
      expect(await errorOf(readFiles(disk))).toMatchObject({
        finding: { code: 'template-too-large', at: null, args: { bytes: size, limit } },
        others: [],
      });
      expect(disk.bytesRead(path)).toBe(limit + 1);
    },
  );

  test('a table of tracks that is too large is not read to its end', async () => {
    const table = 64 * 2 ** 20;
    const yaml = 'tracks: tracks.csv\n';
    const disk = new MemoryFiles({ [path]: yaml, 'score/tracks.csv': new Uint8Array(table + 9) });
    expect(await codesOf(readFiles(disk))).toEqual(['tracks-unreadable']);
    expect(disk.bytesRead('score/tracks.csv')).toBe(table + 1);
  });
});

test('aliases are refused before they are followed', async () => {
  // Nine levels of nine: 387 million items when written out.
  const levels = Array.from({ length: 9 }, (_, i) =>
    i === 0 ? 'a0: &a0 [x]' : `a${String(i)}: &a${String(i)} [${`*a${String(i - 1)},`.repeat(9)}]`,
  );
  const error = await errorOf(read(`${levels.join('\n')}\n`));
  expect(error?.finding).toMatchObject({
    code: 'yaml-shorthand',
    at: { line: 1, column: 5 },
    args: { kind: 'anchor', text: '&a0' },
  });
});

test('a template that is not there is an error about the path', async () => {
  await expect(readFiles(new MemoryFiles({}))).rejects.toBeInstanceOf(InputError);
});
