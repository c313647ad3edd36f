import { spawnSync } from 'node:child_process';
import {
  appendFileSync,
  chmodSync,
  mkdirSync,
  renameSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, test } from 'vitest';
import { diskCalls } from '../../src/files/folder-calls.ts';
import {
  all,
  copy,
  inPlace,
  options,
  put,
  refused,
  text,
  writeFolder,
} from './folder-draft-places.ts';

const size = 3 * 2 ** 20;

/** Copies a file of three MiB of which something becomes at the first or second reading. */
const copying = (
  code: string | null,
  act: (source: string) => void,
  { reading = 1, expected = size } = {},
) =>
  inPlace(async (at) => {
    const source = at('a.wav');
    put(source, new Uint8Array(size));
    if (reading === 0) act(source);
    let read = 0;
    const calls = {
      ...diskCalls,
      read: (...args: Parameters<typeof diskCalls.read>) => {
        read += 1;
        if (read === reading) act(source);
        return diskCalls.read(...args);
      },
    };
    const files = [text('a.sfz'), { path: 'a.wav', pieces: [copy(source, expected)] }];
    const writing = writeFolder(at('out'), files, options(), calls);
    if (code === null) await writing;
    else {
      await expect(writing).rejects.toMatchObject(refused(code, source));
      expect(Object.keys(all(at(''))).filter((name) => name.startsWith('out'))).toEqual([]);
    }
  });

describe('a sample', () => {
  test('as it was', () => copying(null, () => undefined));
  test('missing', () => copying('path-missing', (source) => rmSync(source), { reading: 0 }));
  test('of another size than it had when it was looked at', () =>
    copying('path-changed-while-read', () => undefined, { expected: size + 1 }));
  test('below a file', () =>
    inPlace(async (at) => {
      put(at('a'));
      const file = { path: 'a', pieces: [copy(at('a/b.wav'), 1)] };
      await expect(writeFolder(at('out'), [file])).rejects.toMatchObject(
        refused('path-missing', at('a/b.wav')),
      );
    }));
  test('a folder in its place', () =>
    copying(
      'path-not-a-file',
      (source) => {
        rmSync(source);
        mkdirSync(source);
      },
      { reading: 0 },
    ));
  test('a pipe in its place: nobody waits for its writer', () =>
    copying(
      'path-not-a-file',
      (source) => {
        rmSync(source);
        spawnSync('mkfifo', [source]);
      },
      { reading: 0 },
    ));

  const isRoot = process.getuid?.() === 0;
  if (isRoot) console.log('skipped: a sample without rights to read (root may read anything)');
  test.skipIf(isRoot)('unreadable', () =>
    copying('path-unreadable', (source) => chmodSync(source, 0), { reading: 0 }),
  );
  test('that the system refuses to open', () =>
    inPlace(async (at) => {
      put(at('a.wav'));
      const calls = {
        ...diskCalls,
        openSource: () => {
          throw Object.assign(new Error('no'), { code: 'EACCES' });
        },
      };
      const file = { path: 'a', pieces: [copy(at('a.wav'), 5)] };
      await expect(writeFolder(at('out'), [file], options(), calls)).rejects.toMatchObject(
        refused('path-unreadable', at('a.wav'), { reason: 'EACCES' }),
      );
    }));
});

describe.for([1, 2, 3])('a sample that is read changes at reading %i:', (reading) => {
  const changes = (act: (source: string) => void) =>
    copying('path-changed-while-read', act, { reading });

  test('it grows', () => changes((source) => appendFileSync(source, 'more')));
  test('it shrinks', () => changes((source) => writeFileSync(source, 'short')));
  test('it is written anew', () =>
    changes((source) => {
      writeFileSync(source, new Uint8Array(size).fill(1));
      utimesSync(source, 1, 2);
    }));
  test('it is replaced', () =>
    changes((source) => {
      writeFileSync(`${source}.new`, new Uint8Array(size));
      renameSync(`${source}.new`, source);
    }));
  test('it vanishes', () => changes((source) => rmSync(source)));
  test('a folder takes its place', () =>
    changes((source) => {
      rmSync(source);
      mkdirSync(source);
    }));
});
