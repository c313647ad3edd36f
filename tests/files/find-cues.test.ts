import { mkdir, symlink } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { findCues } from '../../src/files/find-cues.ts';
import { twins, withFiles, type Contents } from './places.ts';

const contents: Contents = {
  'cues/1m1.mid': '',
  'cues/1m2.MID': '',
  'cues/1m10.midi': '',
  'cues/1m3.smf': '',
  'cues/1m4.rmi': '',
  'cues/1m5.kar': '',
  'cues/1m5.mid.bak': '',
  'cues/notes.txt': '',
  'cues/.hidden.mid': '',
  'cues/._1m1.mid': '',
  'cues/.trash/1m9.mid': '',
  'cues/reel 2/2m1.mid': '',
  'cues/reel 2/old/2m1.mid': '',
  'cues/reel.mid/2m2.mid': '',
  'odd/cue [v2].mid': '',
  'odd/cue v.mid': '',
  'odd/cue 2.mid': '',
  'odd/{a,b}.mid': '',
  'odd/what?.mid': '',
  'odd/no extension': '',
  'odd/\uff21.mid': '',
  'odd/\u{1d11e}.mid': '',
  'empty/notes.txt': '',
};

const inCues = [
  'cues/1m1.mid',
  'cues/1m10.midi',
  'cues/1m2.MID',
  'cues/1m3.smf',
  'cues/1m4.rmi',
  'cues/1m5.kar',
  'cues/reel 2/2m1.mid',
  'cues/reel 2/old/2m1.mid',
  'cues/reel.mid/2m2.mid',
];

describe.for(twins)('with $name', ({ place }) => {
  test.for<{ args: readonly string[]; found: readonly string[] }>([
    { args: ['cues/1m1.mid'], found: ['cues/1m1.mid'] },
    { args: ['odd/no extension'], found: ['odd/no extension'] },
    { args: ['cues'], found: inCues },
    { args: ['cues/'], found: inCues },
    { args: ['cues/reel 2'], found: ['cues/reel 2/2m1.mid', 'cues/reel 2/old/2m1.mid'] },
    { args: ['cues/1m?.*'], found: inCues.slice(0, 6).filter((path) => !path.includes('1m10')) },
    { args: ['cues/*.mid'], found: ['cues/1m1.mid'] },
    { args: ['cues/**/2m*.mid'], found: inCues.slice(6) },
    { args: ['cues/{1m1,1m9}.mid'], found: ['cues/1m1.mid'] },
    { args: ['cues/1m[1-3].*'], found: ['cues/1m1.mid', 'cues/1m2.MID', 'cues/1m3.smf'] },
    { args: ['cues/**'], found: inCues },
    // A file of that very name comes before a pattern. As one, `[v2]` is a v or a 2, or itself.
    { args: ['odd/cue [v2].mid'], found: ['odd/cue [v2].mid'] },
    { args: ['odd/{a,b}.mid'], found: ['odd/{a,b}.mid'] },
    { args: ['odd/what?.mid'], found: ['odd/what?.mid'] },
    {
      args: ['odd/cue [v2]*.mid'],
      found: ['odd/cue 2.mid', 'odd/cue [v2].mid', 'odd/cue v.mid'],
    },
    // By code points: U+FF21 before U+1D11E.
    {
      args: ['odd/\u{1d11e}.mid', 'odd/\uff21.mid'],
      found: ['odd/\uff21.mid', 'odd/\u{1d11e}.mid'],
    },
    { args: ['cues/1m3.smf', 'cues/1m1.mid'], found: ['cues/1m1.mid', 'cues/1m3.smf'] },
    { args: ['cues', 'cues/1m1.mid', 'cues/*.mid', 'cues//1m1.mid'], found: inCues },
  ])('$args', async ({ args, found }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      const paths = await findCues(files, args.map(at));
      expect(paths).toEqual(found.map(at));
    });
  });

  test.for([
    { arg: 'cues/1m9.mid', code: 'path-missing' },
    { arg: 'nothing', code: 'path-missing' },
    { arg: 'empty', code: 'cues-none' },
    { arg: 'cues/3m*.mid', code: 'cues-none' },
    { arg: 'cues/*.txt', code: 'cues-none' },
    { arg: 'nothing/*.mid', code: 'cues-none' },
    { arg: 'cues/1m1.mid/*.mid', code: 'cues-none' },
  ])('$arg names nothing', async ({ arg, code }) => {
    await withFiles(place, contents, async ({ files, at }) => {
      const finding = { code, file: at(arg) };
      await expect(findCues(files, [at('cues'), at(arg)])).rejects.toMatchObject({ finding });
    });
  });

  test('any depth', async () => {
    const deep = `${'down/'.repeat(100)}1m1.mid`;
    await withFiles(place, { [`cues/${deep}`]: '' }, async ({ files, at }) => {
      expect(await findCues(files, [at('cues')])).toEqual([at(`cues/${deep}`)]);
      expect(await findCues(files, [at('cues/**/*.mid')])).toEqual([at(`cues/${deep}`)]);
    });
  });
});

describe('on the disk', () => {
  const { place } = twins[0];

  test.for(['cues', 'cues/**/*.mid', 'cues/*'])(
    '%s: what has the name of a cue is never passed over',
    async (arg) => {
      await withFiles(place, { 'cues/1m1.mid': '', 'real/2m1.mid': '' }, async ({ files, at }) => {
        await symlink('/not/there.mid', at('cues/1m2.mid'));
        await symlink('1m3.mid', at('cues/1m3.mid'));
        await symlink('../real/2m1.mid', at('cues/1m4.mid'));
        const found = ['1m1', '1m2', '1m3', '1m4'].map((id) => at(`cues/${id}.mid`));
        expect(await findCues(files, [at(arg)])).toEqual(found);
      });
    },
  );

  test('a link that leads nowhere may have been a folder of cues', async () => {
    await withFiles(place, { 'cues/1m1.mid': '' }, async ({ files, at }) => {
      await symlink('/not there/reel 2', at('cues/reel 2'));
      expect(await findCues(files, [at('cues')])).toEqual([at('cues/1m1.mid'), at('cues/reel 2')]);
    });
  });

  test('linked folders are searched, circles of links are not', async () => {
    await withFiles(place, { 'cues/1m1.mid': '', 'more/1m2.mid': '' }, async ({ files, at }) => {
      await symlink('../more', at('cues/more'));
      await symlink('.', at('cues/self'));
      await mkdir(at('cues/in'));
      await symlink('..', at('cues/in/up'));
      await symlink('../../cues', at('cues/in/cues'));
      const found = [at('cues/1m1.mid'), at('cues/more/1m2.mid')];
      expect(await findCues(files, [at('cues')])).toEqual(found);
      expect(await findCues(files, [at('cues/**/*.mid')])).toEqual(found);
      // Asked for by name it is a folder like any other.
      expect(await findCues(files, [at('cues/self/*.mid')])).toEqual([at('cues/self/1m1.mid')]);
    });
  });
});

test('paths lose a leading ./ and stay relative', async () => {
  const { MemoryFiles } = await import('../../src/files/memory-files.ts');
  const files = new MemoryFiles({ 'cues/1m1.mid': '', '1m2.mid': '' });
  expect(await findCues(files, ['./cues', './1m2.mid'])).toEqual(['1m2.mid', 'cues/1m1.mid']);
  expect(await findCues(files, ['.'])).toEqual(['1m2.mid', 'cues/1m1.mid']);
  expect(await findCues(files, ['**/*.mid'])).toEqual(['1m2.mid', 'cues/1m1.mid']);
  expect(await findCues(files, ['./*/*.mid'])).toEqual(['cues/1m1.mid']);
  expect(await findCues(files, ['cues/../*.mid'])).toEqual(['cues/../1m2.mid']);
});

test.skipIf(process.platform === 'win32')('a backslash is a letter', async () => {
  await withFiles(twins[0].place, { 'cues/a\\b.mid': '' }, async ({ files, at }) => {
    expect(await findCues(files, [at('cues/a\\b.mid')])).toEqual([at('cues/a\\b.mid')]);
  });
});
