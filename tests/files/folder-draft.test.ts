import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { diskCalls } from '../../src/files/folder-calls.ts';
import { FolderDraft } from '../../src/files/folder-draft.ts';
import type { OutputFile, Piece } from '../../src/trim/output-file.ts';
import {
  all,
  copy,
  inPlace,
  list,
  options,
  put,
  putOurs,
  refused,
  text,
  writeFolder,
} from './folder-draft-places.ts';

const draftOf = (at: (name: string) => string) => FolderDraft.open(at('out'), options());

describe('a folder is written', () => {
  test.for(['out', 'out/', 'new/and/deeper/out'])('at %s', async (name) => {
    await inPlace(async (at) => {
      const out = at(name.replace(/\/$/, ''));
      expect(await writeFolder(at(name), [text('a.sfz'), text('deep/er/b.wav')])).toBeNull();
      expect(all(out)).toEqual({
        'a.sfz': 'a.sfz',
        deep: null,
        'deep/er': null,
        'deep/er/b.wav': 'deep/er/b.wav',
      });
      expect(readdirSync(`${out}/..`)).toEqual(['out']);
    });
  });

  test('in place of an empty folder, and of one that was made before', async () => {
    await inPlace(async (at) => {
      mkdirSync(at('out'));
      await writeFolder(at('out'), [text('a')]);
      putOurs(at('ours'), { 'old.sfz': 'old', 'deep/old.wav': 'older' });
      mkdirSync(at('ours/nothing in it'));
      expect(await writeFolder(at('ours'), [text('a')], options({ force: true }))).toBeNull();
      expect(all(at(''))).toEqual({ out: null, 'out/a': 'a', ours: null, 'ours/a': 'a' });
    });
  });

  test('what it writes it may replace', async () => {
    await inPlace(async (at) => {
      const files = [text('a.sfz', 'some'), text('trim.json', list({ 'a.sfz': 'some' }))];
      await writeFolder(at('out'), files);
      await writeFolder(at('out'), files, options({ force: true }));
      await expect(writeFolder(at('out'), files)).rejects.toMatchObject(
        refused('trim-out-exists', at('out'), { reason: 'ours' }),
      );
    });
  });

  test('meanwhile it lies beside its place, marked, and nothing is at its place', async () => {
    await inPlace(async (at) => {
      const draft = await draftOf(at);
      expect(draft.folder).toMatch(/\/out\.[0-9a-f]{8}\.part$/);
      expect(draft.folder.startsWith(at('out'))).toBe(true);
      expect(all(draft.folder)).toEqual({
        'UNFINISHED.txt': 'This folder was not finished. Do not use it; delete it.\n',
      });
      await draft.write(text('a'));
      expect(existsSync(at('out'))).toBe(false);
      await draft.discard();
      await draft.discard();
      expect(all(at(''))).toEqual({});
    });
  });

  test('a discarded draft takes the folders along that were made for it, if they are empty', async () => {
    await inPlace(async (at) => {
      const draft = await FolderDraft.open(at('a/b/out'), options());
      put(at('a/mine'));
      await draft.discard();
      expect(readdirSync(at(''), { recursive: true })).toEqual(['a', 'a/mine']);
    });
  });

  test('it listens to the end of the process only while it is open', async () => {
    await inPlace(async (at) => {
      const before = process.listenerCount('exit');
      const draft = await draftOf(at);
      expect(process.listenerCount('exit')).toBe(before + 1);
      await draft.discard();
      await writeFolder(at('out'), [text('a')]);
      await expect(draftOf(at)).rejects.toThrow();
      expect(process.listenerCount('exit')).toBe(before);
    });
  });

  test('the end of the process removes it', async () => {
    await inPlace(async (at) => {
      const draft = await FolderDraft.open(at('new/out'), options());
      await draft.write(text('deep/a'));
      (process.listeners('exit').at(-1) as (code: number) => void)(130);
      expect(all(at(''))).toEqual({});
    });
  });

  test('it is nobody’s to use when it is closed, or by two at once', async () => {
    await inPlace(async (at) => {
      const draft = await draftOf(at);
      const first = draft.write(text('a'));
      await expect(draft.write(text('b'))).rejects.toThrow('busy');
      await first;
      await draft.finish();
      await expect(draft.finish()).rejects.toThrow('closed');
      expect(Object.keys(all(at('out')))).toEqual(['a']);
    });
  });
});

describe('pieces', () => {
  const mebibyte = 2 ** 20;
  const bytes = (length: number, seed: number) =>
    Uint8Array.from({ length }, (_, i) => (i * 31 + seed + (i >> 8)) & 255);

  test('bytes and stretches of several files, around the size of the buffer', async () => {
    await inPlace(async (at) => {
      const [one, two] = [bytes(3 * mebibyte + 17, 1), bytes(1000, 2)];
      put(at('one'), one);
      put(at('two'), two);
      const pieces: readonly (readonly [Piece, Uint8Array])[] = [
        ...[bytes(5, 3), bytes(mebibyte - 5, 4), new Uint8Array(), bytes(2 * mebibyte + 1, 5)].map(
          (made) => [{ kind: 'bytes', bytes: made } as const, made] as const,
        ),
        ...(
          [
            ['one', one, 7, 2 * mebibyte],
            ['one', one, 0, 1],
            ['two', two, 999, 1],
            ['two', two, 500, 0],
            ['one', one, 0, one.length],
          ] as const
        ).map(
          ([name, from, start, length]) =>
            [
              copy(at(name), from.length, start, length),
              from.subarray(start, start + length),
            ] as const,
        ),
      ];
      const told: number[] = [];
      const draft = await draftOf(at);
      const file = { path: 'made', pieces: pieces.map(([piece]) => piece) };
      await draft.write(file, (more) => told.push(more));
      await draft.write({ path: 'empty', pieces: [] });
      await draft.finish();
      const wanted = Buffer.concat(pieces.map(([, part]) => part));
      expect(Buffer.compare(Buffer.from(all(at('out'))['made']!, 'latin1'), wanted)).toBe(0);
      expect(all(at('out'))['empty']).toBe('');
      expect(told.reduce((sum, more) => sum + more, 0)).toBe(wanted.length);
      expect(told.length).toBeGreaterThan(8);
      expect(Math.max(...told)).toBeLessThanOrEqual(mebibyte);
    });
  });

  test('a stretch of a file that others are open beside is opened once', async () => {
    await inPlace(async (at) => {
      put(at('bank'), 'abcdef');
      let opened = 0;
      const calls = {
        ...diskCalls,
        openSource: (path: string) => ((opened += 1), diskCalls.openSource(path)),
      };
      const made: Piece = { kind: 'bytes', bytes: Uint8Array.of(45) };
      const pieces = [copy(at('bank'), 6, 4), made, copy(at('bank'), 6, 1, 2), made];
      await writeFolder(at('out'), [{ path: 'a', pieces }], options(), calls);
      expect(all(at('out'))).toEqual({ a: 'ef-bc-' });
      expect(opened).toBe(1);
    });
  });

  test('what is written has no rights of its source, and is no link to it', async () => {
    await inPlace(async (at) => {
      put(at('locked'), 'abc');
      chmodSync(at('locked'), 0o400);
      symlinkSync('locked', at('link'));
      await writeFolder(at('out'), [{ path: 'a', pieces: [copy(at('link'), 3)] }]);
      expect(statSync(at('out/a')).mode & 0o200).toBe(0o200);
      expect(statSync(at('out/a')).ino).not.toBe(statSync(at('locked')).ino);
    });
  });

  test('others have their turn in the middle of a long copy, and may discard it', async () => {
    await inPlace(async (at) => {
      put(at('long'), new Uint8Array(20 * mebibyte));
      const draft = await draftOf(at);
      const writing = draft.write({ path: 'a', pieces: [copy(at('long'), 20 * mebibyte)] });
      setImmediate(() => void draft.discard());
      await expect(writing).rejects.toMatchObject(refused('output-unwritable', at('out')));
      expect(readdirSync(at(''))).toEqual(['long']);
    });
  });
});

describe('paths', () => {
  test.for([
    ...['', '/', '/a', '../a', 'a/../b', '..', '.', './a', 'a/.', 'a//b', 'a/', 'a\\b', 'a\0b'],
    ...['a\nb', 'a\u001b[2J', 'a\u0085b', 'a\ud800', 'C:/a', 'c:a'],
  ])('%j is refused, and nothing is left', async (path) => {
    await inPlace(async (at) => {
      await expect(writeFolder(at('out'), [text('a'), text(path)])).rejects.toMatchObject(
        refused('trim-path', path, { path, reason: 'hostile' }),
      );
      expect(all(at(''))).toEqual({});
    });
  });

  test.for(['a...b', '...', ' ', 'é', '-rf', 'ab:c', '日本.wav', '😀'])(
    '%j is a name',
    async (path) => {
      await inPlace(async (at) => {
        await writeFolder(at('out'), [text(path)]);
        expect(Object.keys(all(at('out')))).toEqual([path]);
      });
    },
  );

  test.for([
    { first: 'A.wav', second: 'a.wav' },
    { first: 'same', second: 'same' },
    { first: 'é.wav', second: 'e\u0301.WAV' },
    { first: 'Strings/a.wav', second: 'strings/b.wav', names: ['Strings', 'strings'] },
    { first: 'a', second: 'A/b', names: ['a', 'A'] },
    { first: 'a', second: 'a/b', names: ['a', 'a'] },
    { first: 'a/b', second: 'a' },
    { first: 'a/b', second: 'A', names: ['a', 'A'] },
    { first: 'x', second: 'unfinished.TXT', names: ['UNFINISHED.txt', 'unfinished.TXT'] },
  ])('$first and $second collide', async ({ first, second, names }) => {
    await inPlace(async (at) => {
      const writing = writeFolder(at('out'), [text(first), text(second)]);
      await expect(writing).rejects.toMatchObject({ finding: { code: 'trim-names-collide' } });
      const [one, two] = names ?? [second === 'a' ? 'a' : first, second];
      await expect(writing).rejects.toMatchObject({
        finding: { file: two, args: { first: one, second: two } },
      });
      expect(all(at(''))).toEqual({});
    });
  });

  test('files of one folder do not collide', async () => {
    await inPlace(async (at) => {
      await writeFolder(at('out'), [text('a/b/1'), text('a/c/1'), text('a/b/2'), text('1')]);
      expect(Object.keys(all(at('out'))).length).toBe(7);
    });
  });
});

describe('the folder is meddled with', () => {
  const meddled = (file: OutputFile, meddle: (folder: string) => void, more = {}) =>
    inPlace(async (at) => {
      const draft = await draftOf(at);
      await draft.write(text('deep/a'));
      meddle(draft.folder);
      const going = async () => {
        await draft.write(file);
        await draft.finish();
      };
      await expect(going()).rejects.toMatchObject(refused('output-unwritable', at('out')));
      expect(all(at(''))).toEqual(more);
      await expect(draft.finish()).rejects.toMatchObject(refused('output-unwritable', at('out')));
    });

  const vanishes = (folder: string) => rmSync(folder, { recursive: true });

  test('it vanishes before a file is written', () => meddled(text('b'), vanishes));
  test('it vanishes before a file in a folder that was made', () =>
    meddled(text('deep/b'), vanishes));
  test('it is replaced', () =>
    meddled(text('b'), (folder) => {
      vanishes(folder);
      mkdirSync(folder);
      put(`${folder}/deep/a`, 'deep/a');
      put(`${folder}/UNFINISHED.txt`);
    }));
  const mine = { mine: null, 'mine/deep': null, 'mine/deep/a': 'deep/a' };
  test.for(['b', 'deep/b', 'other/b'])(
    'a link takes its place: nothing is written through it',
    (path) =>
      meddled(
        text(path),
        (folder) => {
          vanishes(folder);
          put(join(folder, '../mine/deep/a'), 'deep/a');
          symlinkSync('mine', folder);
        },
        mine,
      ),
  );
  test('a link takes the place of a folder in it', () =>
    meddled(
      text('deep/b'),
      (folder) => {
        vanishes(`${folder}/deep`);
        put(join(folder, '../mine/deep/a'), 'deep/a');
        symlinkSync('../mine/deep', `${folder}/deep`);
      },
      mine,
    ));
  test('a file is gone', () => meddled(text('b'), (folder) => rmSync(`${folder}/deep/a`)));
  test('a file is another', () =>
    meddled(text('b'), (folder) => put(`${folder}/deep/a`, 'of another length')));
  test('a file is there already', () => meddled(text('b'), (folder) => put(`${folder}/b`)));
  test('a link is there already', () =>
    meddled(text('b'), (folder) => symlinkSync('nowhere', `${folder}/b`)));
  test('the mark is gone', () =>
    meddled(text('b'), (folder) => rmSync(`${folder}/UNFINISHED.txt`)));
});

describe('something comes to be at the output meanwhile', () => {
  const meanwhile = (act: (out: string) => void, code: string, before?: (out: string) => void) =>
    inPlace(async (at) => {
      before?.(at('out'));
      const draft = await FolderDraft.open(at('out'), options({ force: true }));
      await draft.write(text('a'));
      act(at('out'));
      const now = () =>
        Object.fromEntries(Object.entries(all(at(''))).filter(([name]) => !name.includes('.part')));
      const was = now();
      await expect(draft.finish()).rejects.toMatchObject(refused(code, at('out')));
      expect(all(at(''))).toEqual(was);
    });

  test('a file', () => meanwhile((out) => put(out), 'trim-out-kind'));
  test('a folder of others', () => meanwhile((out) => put(`${out}/mine`), 'trim-out-exists'));
  test('a link', () => meanwhile((out) => symlinkSync('nowhere', out), 'trim-out-kind'));
  test('a file in the folder that is to be replaced', () =>
    meanwhile(
      (out) => put(`${out}/mine`),
      'trim-out-others',
      (out) => putOurs(out, { a: 'a' }),
    ));
});
