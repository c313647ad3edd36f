import { describe, expect, test } from 'vitest';
import { twins, withFiles, type Contents } from './places.ts';

/** What the interface promises, held against the disk and its twin. */
const contents: Contents = {
  'cues/1m1.mid': Uint8Array.of(1, 2, 3, 4),
  'cues/old/1m1.mid': Uint8Array.of(5),
  'cues/cue [v2].mid': '',
  // U+FF21 stands before U+1D11E by code points, though not by UTF-16 halves.
  'order/\u{1d11e}': '',
  'order/\uff21': '',
  'order/a b': '',
  'order/B': '',
  'order/ab': '',
  'order/a': '',
};

describe.for(twins)('$name', ({ place }) => {
  test.for([
    { path: 'cues/1m1.mid', info: { kind: 'file', size: 4 } },
    { path: 'cues/cue [v2].mid', info: { kind: 'file', size: 0 } },
    { path: 'cues//old/../1m1.mid', info: { kind: 'file', size: 4 } },
    { path: 'cues', info: { kind: 'folder' } },
    { path: 'cues/', info: { kind: 'folder' } },
    { path: 'cues/1m2.mid', info: null },
    { path: 'cues/1m1.mid/inside', info: null },
    { path: 'no/such', info: null },
  ])('info of $path', async ({ path, info }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      const found = await files.info(at(path));
      if (info === null) expect(found).toBeNull();
      else expect(found).toMatchObject(info);
    });
  });

  test.for([
    { range: [], bytes: [1, 2, 3, 4] },
    { range: [0], bytes: [1, 2, 3, 4] },
    { range: [1, 2], bytes: [2, 3] },
    { range: [2], bytes: [3, 4] },
    { range: [3, 10], bytes: [4] },
    { range: [4, 1], bytes: [] },
    { range: [9, 1], bytes: [] },
    { range: [1, 0], bytes: [] },
    { range: [0, 2 ** 40], bytes: [1, 2, 3, 4] },
  ])('read $range', async ({ range: [offset, length], bytes }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      expect([...(await files.read(at('cues/1m1.mid'), offset, length))]).toEqual(bytes);
    });
  });

  test.for([
    { ranges: [[0, 2]], bytes: [[1, 2]] },
    { ranges: [[0, 4096]], bytes: [[1, 2, 3, 4]] },
    {
      ranges: [
        [2, 1],
        [0, 1],
        [3, 10],
        [9, 1],
        [0, 0],
      ],
      bytes: [[3], [1], [4], [], []],
    },
  ] as const)('open and read $ranges', async ({ ranges, bytes }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      const found = await files.open(at('cues/1m1.mid'), async ({ size, read }) => {
        expect(size).toBe(4);
        const all: number[][] = [];
        for (const [offset, length] of ranges) {
          const one = await read(offset, length);
          all.push([...one]);
          one.fill(0);
        }
        return all;
      });
      expect(found).toEqual(bytes);
      expect([...(await files.read(at('cues/1m1.mid')))]).toEqual([1, 2, 3, 4]);
    });
  });

  test.for(['cues/1m2.mid', 'cues/1m1.mid/inside', 'no/such'])(
    'open gives null for %s: nothing is there',
    async (path) => {
      await withFiles(place, contents, async ({ files, at }) => {
        expect(await files.open(at(path), () => Promise.resolve(1))).toBeNull();
      });
    },
  );

  test('open refuses a folder, and passes on what its user throws', async () => {
    await withFiles(place, contents, async ({ files, at }) => {
      const finding = { code: 'path-not-a-file', severity: 'error', file: at('cues') };
      const opened = files.open(at('cues'), () => Promise.resolve(1));
      await expect(opened).rejects.toMatchObject({ name: 'InputError', finding });
      const broken = files.open(at('cues/1m1.mid'), () => Promise.reject(new TypeError('mine')));
      await expect(broken).rejects.toThrow('mine');
    });
  });

  test('what is read is a copy', async () => {
    await withFiles(place, contents, async ({ files, at }) => {
      (await files.read(at('cues/1m1.mid'))).fill(0);
      expect([...(await files.read(at('cues/1m1.mid')))]).toEqual([1, 2, 3, 4]);
    });
  });

  test.for([
    { path: 'cues', code: 'path-not-a-file' },
    { path: 'cues/1m2.mid', code: 'path-missing' },
    { path: 'cues/1m1.mid/inside', code: 'path-missing' },
  ])('read refuses $path', async ({ path, code }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      const error = { name: 'InputError', finding: { code, severity: 'error', file: at(path) } };
      await expect(files.read(at(path))).rejects.toMatchObject(error);
      await expect(files.read(at(path), 0, 0)).rejects.toMatchObject(error);
    });
  });

  test.for([
    { path: 'cues', names: ['1m1.mid', 'cue [v2].mid', 'old'] },
    { path: 'cues/', names: ['1m1.mid', 'cue [v2].mid', 'old'] },
    { path: 'order', names: ['B', 'a', 'a b', 'ab', '\uff21', '\u{1d11e}'] },
  ])('list of $path', async ({ path, names }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      expect(await files.list(at(path))).toEqual(names);
    });
  });

  test.for(['no', 'cues/1m1.mid'])('list refuses %s: no folder is there', async (path) => {
    await withFiles(place, contents, async ({ files, at }) => {
      const finding = { code: 'path-missing', severity: 'error', file: at(path) };
      const error = { name: 'InputError', finding };
      await expect(files.list(at(path))).rejects.toMatchObject(error);
    });
  });
});
