import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { open, readdir, readlink, symlink, truncate, unlink, writeFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { DiskFiles } from '../../src/files/disk-files.ts';
import type { OpenFile } from '../../src/terms/files.ts';
import { twins, withFiles } from './places.ts';

/** What only the real disk can do. */
const place = twins[0].place;

const files = new DiskFiles();
const refused = (code: string, file: string) => ({ name: 'InputError', finding: { code, file } });

/** The first four bytes of an open file. */
const beginning = ({ read }: OpenFile) => read(0, 4);

const hasPipes = spawnSync('mkfifo', ['--version']).error === undefined;
if (!hasPipes) console.log('skipped: named pipes (no mkfifo)');

describe('what is no regular file', () => {
  test.skipIf(!hasPipes)('a named pipe is never opened', async () => {
    await withFiles(place, { 'a.txt': '' }, async ({ at }) => {
      spawnSync('mkfifo', [at('pipe')]);
      expect(await files.info(at('pipe'))).toMatchObject({ kind: 'other' });
      const read = files.read(at('pipe'));
      await expect(read).rejects.toMatchObject(refused('path-not-a-file', at('pipe')));
      const head = files.open(at('pipe'), beginning);
      await expect(head).rejects.toMatchObject(refused('path-not-a-file', at('pipe')));
    });
  });

  test.skipIf(!hasPipes)(
    'a named pipe put in the place of a file does not hang either',
    async () => {
      await withFiles(place, { a: 'a file' }, async ({ at }) => {
        class Swapping extends DiskFiles {
          override async info(path: string) {
            const info = await super.info(path);
            await unlink(path);
            spawnSync('mkfifo', [path]);
            return info;
          }
        }
        const read = new Swapping().read(at('a'));
        await expect(read).rejects.toMatchObject(refused('path-not-a-file', at('a')));
      });
    },
  );

  test('a device', async () => {
    expect(await files.info('/dev/null')).toMatchObject({ kind: 'other' });
    const read = files.read('/dev/null');
    await expect(read).rejects.toMatchObject(refused('path-not-a-file', '/dev/null'));
    const head = files.open('/dev/null', beginning);
    await expect(head).rejects.toMatchObject(refused('path-not-a-file', '/dev/null'));
  });
});

describe('links', () => {
  test('are followed', async () => {
    await withFiles(place, { 'real/1m1.mid': 'cue' }, async ({ at }) => {
      await symlink('real', at('linked'));
      expect(await readlink(at('linked'))).toBe('real');
      expect(await files.info(at('linked'))).toMatchObject({ kind: 'folder' });
      expect(await files.list(at('linked'))).toEqual(['1m1.mid']);
      expect(await files.read(at('linked/1m1.mid'))).toHaveLength(3);
      expect(await files.identity(at('linked'))).toBe(await files.identity(at('real')));
      expect(await files.identity(at('linked'))).not.toBe(
        await files.identity(at('linked/1m1.mid')),
      );
    });
  });

  test('that lead nowhere, and in a circle', async () => {
    await withFiles(place, { 'a.txt': '' }, async ({ at }) => {
      await symlink('nothing', at('broken'));
      await symlink('circle', at('circle'));
      expect(await files.info(at('broken'))).toBeNull();
      const circle = files.info(at('circle'));
      await expect(circle).rejects.toMatchObject(refused('path-unreadable', at('circle')));
      expect(await files.identity(at('broken'))).toBeNull();
      expect(await files.identity(at('circle'))).toBeNull();
    });
  });
});

describe('a file that changes while it is read', () => {
  /** Lets something happen between the first look at a file and the last. */
  const whileRead = async (act: (path: string) => Promise<void>) => {
    await withFiles(place, { a: 'x'.repeat(4096) }, async ({ at }) => {
      // The handle that is read from: every one is of this kind.
      const probe = await open(at('a'));
      const kind = Object.getPrototypeOf(probe) as {
        read: (...args: unknown[]) => Promise<unknown>;
      };
      await probe.close();
      const plainRead = kind.read;
      kind.read = async function (this: unknown, ...args) {
        await act(at('a'));
        return plainRead.apply(this, args);
      };
      try {
        const read = files.read(at('a'));
        await expect(read).rejects.toMatchObject(refused('path-changed-while-read', at('a')));
      } finally {
        kind.read = plainRead;
      }
      expect(await files.read(at('a'))).toBeInstanceOf(Uint8Array);
    });
  };

  test('it gets shorter', () => whileRead((path) => truncate(path, 10)));
  test('it gets longer', () => whileRead((path) => writeFile(path, 'x', { flag: 'a' })));
  test('it is written over in the same size', () =>
    whileRead((path) => writeFile(path, 'y'.repeat(4096))));
});

test('an open file that gets shorter', async () => {
  await withFiles(place, { a: 'x'.repeat(4096) }, async ({ at }) => {
    const opened = files.open(at('a'), async ({ read }) => {
      await read(0, 16);
      await truncate(at('a'), 10);
      return read(8, 16);
    });
    await expect(opened).rejects.toMatchObject(refused('path-changed-while-read', at('a')));
  });
});

test.skipIf(!existsSync('/proc/self/fd'))('an open file is closed whatever happens', async () => {
  await withFiles(place, { a: 'x' }, async ({ at }) => {
    const before = (await readdir('/proc/self/fd')).length;
    for (let i = 0; i < 20; i++) {
      await files.open(at('a'), beginning);
      const broken = files.open(at('a'), () => Promise.reject(new TypeError('mine')));
      await expect(broken).rejects.toThrow('mine');
    }
    expect((await readdir('/proc/self/fd')).length).toBeLessThan(before + 20);
  });
});

test('what does not fit in memory is not read whole, but in stretches', async () => {
  await withFiles(place, { huge: 'RIFF' }, async ({ at }) => {
    await truncate(at('huge'), 2 ** 40);
    const read = files.read(at('huge'));
    await expect(read).rejects.toMatchObject(refused('path-unreadable', at('huge')));
    const most = files.read(at('huge'), 0, 2 ** 39);
    await expect(most).rejects.toMatchObject(refused('path-unreadable', at('huge')));
    expect(await files.open(at('huge'), beginning)).toEqual(new TextEncoder().encode('RIFF'));
    expect(await files.read(at('huge'), 0, 4)).toEqual(new TextEncoder().encode('RIFF'));
    expect(await files.read(at('huge'), 2 ** 40 - 2, 10)).toHaveLength(2);
  });
});

test('too long a name', async () => {
  const path = 'x'.repeat(5000);
  await expect(files.info(path)).rejects.toMatchObject(refused('path-unreadable', path));
  await expect(files.open(path, beginning)).rejects.toMatchObject(refused('path-unreadable', path));
});
