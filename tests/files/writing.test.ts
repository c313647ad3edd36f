import { chmod, link, mkdir, readFile, readdir, stat, symlink, writeFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { refuseInputs } from '../../src/files/refuse-inputs.ts';
import { checkWritable, makeFolderOf, writeWhole } from '../../src/files/write-whole.ts';
import { twins, withFiles, type Place } from './places.ts';

const { place } = twins[0];

const inFolder = (use: (place: Place) => Promise<void>): Promise<void> =>
  withFiles(place, { 'old.json': 'old' }, use);

const unwritable = (file: string) => ({
  name: 'InputError',
  finding: { code: 'output-unwritable', file },
});

const names = (at: Place['at']) => readdir(at('.'), { recursive: true });

describe('writeWhole', () => {
  test('writes text and bytes, and replaces what is there', async () => {
    await inFolder(async ({ at }) => {
      await writeWhole(at('new.json'), 'é');
      await writeWhole(at('old.json'), Uint8Array.of(1, 2));
      expect([...(await readFile(at('new.json')))]).toEqual([0xc3, 0xa9]);
      expect([...(await readFile(at('old.json')))]).toEqual([1, 2]);
      expect(await names(at)).toEqual(['new.json', 'old.json']);
    });
  });

  test('a reader of the old file goes on with the old file: it is replaced, not changed', async () => {
    await inFolder(async ({ at }) => {
      await link(at('old.json'), at('same.json'));
      await writeWhole(at('old.json'), 'new');
      expect(await readFile(at('same.json'), 'utf8')).toBe('old');
    });
  });

  test('what fails in the middle leaves what was there, and nothing else', async () => {
    await inFolder(async ({ at }) => {
      // What is written comes in pieces and breaks off: like a disk that is full.
      const pieces = async function* () {
        yield await Promise.resolve('half of it');
        throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
      };
      const writing = writeWhole(at('old.json'), pieces() as unknown as string);
      await expect(writing).rejects.toMatchObject(unwritable(at('old.json')));
      expect(await readFile(at('old.json'), 'utf8')).toBe('old');
      expect(await names(at)).toEqual(['old.json']);
    });
  });

  test('a fault of the program is passed on, and tidied up after as well', async () => {
    await inFolder(async ({ at }) => {
      const writing = writeWhole(
        at('old.json'),
        (async function* () {
          yield await Promise.resolve('half of it');
          throw new Error('a fault');
        })() as unknown as string,
      );
      await expect(writing).rejects.toThrow('a fault');
      expect(await names(at)).toEqual(['old.json']);
    });
  });

  test('listens to the end of the process only while it writes', async () => {
    await inFolder(async ({ at }) => {
      const before = process.listenerCount('exit');
      await writeWhole(at('old.json'), 'new');
      await expect(writeWhole(at('no/new.json'), '')).rejects.toThrow();
      expect(process.listenerCount('exit')).toBe(before);
    });
  });
});

describe.for([
  { name: 'writeWhole', refuse: (path: string) => writeWhole(path, 'new') },
  { name: 'checkWritable', refuse: checkWritable },
])('$name refuses', ({ refuse }) => {
  test.for([
    'no/new.json',
    'old.json/new.json',
    'folder',
    'folder/',
    'new/',
    `${'x'.repeat(300)}.json`,
  ])('%s', async (name) => {
    await inFolder(async ({ at }) => {
      await mkdir(at('folder'));
      await expect(refuse(at(name))).rejects.toMatchObject(unwritable(at(name)));
      expect(await names(at)).toEqual(['folder', 'old.json']);
    });
  });

  test('no name, and a device', async () => {
    await expect(refuse('')).rejects.toMatchObject(unwritable(''));
    await expect(refuse('/dev/null')).rejects.toMatchObject(unwritable('/dev/null'));
    expect((await stat('/dev/null')).isFile()).toBe(false);
  });

  const isRoot = process.getuid?.() === 0;
  if (isRoot) console.log('skipped: a read-only folder (root may write anywhere)');
  test.skipIf(isRoot)('a read-only folder', async () => {
    await inFolder(async ({ at }) => {
      await mkdir(at('locked'));
      await chmod(at('locked'), 0o500);
      const out = at('locked/new.json');
      await expect(refuse(out)).rejects.toMatchObject(unwritable(out));
    });
  });
});

test('checkWritable writes nothing', async () => {
  await inFolder(async ({ at }) => {
    await checkWritable(at('old.json'));
    await checkWritable(at('new.json'));
    expect(await names(at)).toEqual(['old.json']);
    expect(await readFile(at('old.json'), 'utf8')).toBe('old');
  });
});

describe('makeFolderOf', () => {
  test('makes all of them, or finds them', async () => {
    await inFolder(async ({ at }) => {
      await makeFolderOf(at('a/b/c.mid'));
      await makeFolderOf(at('a/b/c.mid'));
      expect(await names(at)).toEqual(['a', 'old.json', 'a/b']);
    });
  });

  test('a file is in the way', async () => {
    await inFolder(async ({ at }) => {
      for (const name of ['old.json/new.json', 'old.json/a/new.json']) {
        await expect(makeFolderOf(at(name))).rejects.toMatchObject(unwritable(at(name)));
      }
    });
  });
});

describe('refuseInputs', () => {
  test.for([
    { what: 'the same path', out: 'in.mid', refused: true },
    { what: 'another way to it', out: 'folder/../in.mid', refused: true },
    { what: 'a link to it', out: 'link.mid', refused: true },
    { what: 'through a linked folder', out: 'linked/in.mid', refused: true },
    { what: 'a second name', out: 'second.mid', refused: true },
    { what: 'another file', out: 'other.mid', refused: false },
    { what: 'nothing yet', out: 'new.mid', refused: false },
    { what: 'a link that leads nowhere', out: 'broken.mid', refused: false },
  ])('$what', async ({ out, refused }) => {
    await inFolder(async ({ at }) => {
      await writeFile(at('in.mid'), 'a cue');
      await writeFile(at('other.mid'), 'a cue');
      await mkdir(at('folder'));
      await symlink('in.mid', at('link.mid'));
      await symlink('.', at('linked'));
      await symlink('nowhere', at('broken.mid'));
      await link(at('in.mid'), at('second.mid'));
      const refusing = refuseInputs(at(out), [at('missing.mid'), at('in.mid')]);
      if (refused) await expect(refusing).rejects.toMatchObject(unwritable(at(out)));
      else await expect(refusing).resolves.toBeUndefined();
    });
  });
});
