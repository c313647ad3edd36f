import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';

const files = () =>
  new MemoryFiles({
    'cues/1m1.mid': Uint8Array.of(1, 2, 3, 4),
    'cues/old/1m1.mid': Uint8Array.of(5),
    '/media/bank.sf2': Uint8Array.of(6, 7),
    'keepset.yaml': 'cues: é',
  });

describe('info', () => {
  test.each([
    ['cues/1m1.mid', { kind: 'file', size: 4 }],
    ['./cues/../cues//1m1.mid', { kind: 'file', size: 4 }],
    ['cues', { kind: 'folder', size: 0 }],
    ['cues/', { kind: 'folder', size: 0 }],
    ['.', { kind: 'folder', size: 0 }],
    ['/', { kind: 'folder', size: 0 }],
    ['/media', { kind: 'folder', size: 0 }],
    ['media', null],
    ['../cues', null],
    ['cues/1m2.mid', null],
  ])('%s', async (path, info) => {
    expect(await files().info(path)).toEqual(info);
  });
});

describe('read', () => {
  test.each([
    [undefined, undefined, [1, 2, 3, 4]],
    [1, 2, [2, 3]],
    [2, undefined, [3, 4]],
    [3, 10, [4]],
    [9, 1, []],
  ])('from %s, %s bytes', async (offset, length, bytes) => {
    expect([...(await files().read('cues/1m1.mid', offset, length))]).toEqual(bytes);
  });

  test('hands out copies, and text as UTF-8', async () => {
    const disk = files();
    (await disk.read('cues/1m1.mid')).fill(0);
    expect([...(await disk.read('cues/1m1.mid'))]).toEqual([1, 2, 3, 4]);
    expect(await disk.read('keepset.yaml')).toHaveLength(8);
  });

  test('counts the bytes by file', async () => {
    const disk = files();
    await disk.read('cues/1m1.mid', 1, 2);
    await disk.read('./cues/1m1.mid', 3, 10);
    expect(disk.bytesRead('cues/1m1.mid')).toBe(3);
    expect(disk.bytesRead('cues/old/1m1.mid')).toBe(0);
  });

  test.each([
    ['cues', 'path-not-a-file'],
    ['nothing', 'path-missing'],
  ])('%s is refused', async (path, code) => {
    await expect(files().read(path)).rejects.toMatchObject({ finding: { code, file: path } });
  });
});

describe('list', () => {
  test.each([
    ['.', ['cues', 'keepset.yaml']],
    ['cues', ['1m1.mid', 'old']],
    ['/', ['media']],
    ['/media', ['bank.sf2']],
  ])('%s', async (path, names) => {
    expect(await files().list(path)).toEqual(names);
  });

  test('is in code point order', async () => {
    // U+FF21 stands before U+1D11E, though not by its UTF-16 halves.
    const names = ['a', 'ab', 'b', '\uff21', '\u{1d11e}'];
    const disk = new MemoryFiles(Object.fromEntries(names.toReversed().map((name) => [name, ''])));
    expect(await disk.list('')).toEqual(names);
  });

  test.each(['cues/1m1.mid', 'nothing'])('%s is no folder', async (path) => {
    await expect(files().list(path)).rejects.toMatchObject({
      finding: { code: 'path-missing', file: path },
    });
  });
});
