import { mkdir, symlink, truncate, writeFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { cutCue, plainCue } from '../jobs/small-score.ts';
import { expectError, keepset, spawnKeepset, type Ended } from './keepset.ts';
import { hasPipes, makePipe, test, type Folder } from './material.ts';
import { document } from './schemas.ts';

const commands = [
  { name: 'usage', args: ['usage'] },
  { name: 'plan', args: ['plan', '-i', 'bank.sf2', '-o', 'keep.json'] },
] as const;

/** Stopped by its input: nothing on stdout, nothing written, a clear error. */
const expectStopped = async (
  result: Ended,
  code: string,
  where: string,
  folder: Folder,
  before: Readonly<Record<string, string>>,
): Promise<void> => {
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expectError(result, code, where);
  expect(await folder.state()).toEqual(before);
};

describe.for(commands)('$name: an argument that names no cues', ({ args }) => {
  test.for([
    { what: 'no such file', cues: 'cues/1m7.mid', code: 'path-missing' },
    { what: 'no such folder', cues: 'nothing/', code: 'path-missing' },
    { what: 'an empty folder', cues: 'empty', code: 'cues-none' },
    { what: 'a folder without cues', cues: 'notes', code: 'cues-none' },
    { what: 'a pattern that matches nothing', cues: 'cues/2m*.mid', code: 'cues-none' },
    { what: 'a pattern in a folder that is not there', cues: 'no/*.mid', code: 'cues-none' },
    { what: 'a path through a file', cues: 'bank.sf2/1m1.mid', code: 'path-missing' },
  ])('$what', async ({ cues, code }, { score }) => {
    await mkdir(score.at('empty'));
    await score.write({ 'notes/about.txt': 'no cue' });
    const before = await score.state();
    // The good cue beside it does not help: what was typed is not there.
    const result = await keepset([...args, 'cues', cues], { cwd: score.path });
    await expectStopped(result, code, cues, score, before);
  });

  test.skipIf(!hasPipes)('a named pipe does not hang', async ({ score }) => {
    await makePipe(score.at('pipe.mid'));
    const before = await score.state();
    const result = await spawnKeepset([...args, 'pipe.mid'], { cwd: score.path });
    await expectStopped(result, 'path-not-a-file', 'pipe.mid', score, before);
  });
});

/** What has the name of a cue and can't be read; `make` puts it at a path. */
const unreadable: readonly {
  readonly what: string;
  readonly code: string;
  readonly where?: string;
  readonly make: (path: string) => Promise<unknown>;
}[] = [
  {
    what: 'a text file',
    code: 'midi-not-a-midi-file',
    where: ' (byte 0x0)',
    make: (path) => writeFile(path, 'Dear diary'),
  },
  { what: 'an empty file', code: 'midi-empty', make: (path) => writeFile(path, '') },
  {
    what: 'a header that breaks off',
    code: 'midi-header-cut',
    where: ' (byte 0x0)',
    make: (path) => writeFile(path, plainCue().subarray(0, 10)),
  },
  {
    what: 'a link that leads nowhere',
    code: 'path-missing',
    make: (path) => symlink('/media/not there/1m2.mid', path),
  },
  {
    what: 'a link to itself',
    code: 'path-unreadable',
    make: (path) => symlink('1m2.mid', path),
  },
  ...(hasPipes ? [{ what: 'a named pipe', code: 'path-not-a-file', make: makePipe }] : []),
  {
    what: 'a terabyte',
    code: 'path-unreadable',
    make: async (path) => {
      await writeFile(path, plainCue());
      await truncate(path, 2 ** 40);
    },
  },
];

describe.for(unreadable)('beside a good cue: $what', ({ code, where = '', make }) => {
  test.for(['cues', 'cues/*', 'cues/**/*.mid'])(
    'found by %s, is named and does not stop the others',
    async (cues, { score }) => {
      await make(score.at('cues/1m2.mid'));
      const usage = await keepset(['usage', cues, '--format', 'json'], { cwd: score.path });
      expect(usage.code).toBe(2);
      const used = document(usage.stdout, 'usage@1');
      expect(used.cues.map(({ id, state, notes }) => [id, state, notes])).toEqual([
        ['1m1', 'read', 2],
        ['1m2', 'unreadable', 0],
      ]);
      expect(used.findings).toMatchObject([{ code, severity: 'error', file: 'cues/1m2.mid' }]);
    },
  );

  test('keeps everything and allows no keep file', async ({ score }) => {
    await make(score.at('cues/1m2.mid'));
    const args = ['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'];
    const result = await keepset(args, { cwd: score.path });
    expect(result.code).toBe(2);
    expect(result.stdout).toContain('Keep all 4 zones');
    expect(result.stdout).toContain('! Not readable: 1m2.');
    expectError(result, code, `cues/1m2.mid${where}`);
    expect(await score.state()).not.toHaveProperty('keep.json');
    const without = await keepset([...args, '--without', '1m2'], { cwd: score.path });
    expect(without).toMatchObject({ code: 0, stderr: 'wrote keep.json\n' });
  });
});

test('a text file alone', async ({ score }) => {
  await score.write({ 'words.mid': 'Dear diary' });
  const before = await score.state();
  const args = ['plan', 'words.mid', '-i', 'bank.sf2', '-o', 'keep.json'];
  const result = await keepset(args, { cwd: score.path });
  expect(result.code).toBe(2);
  expectError(result, 'midi-not-a-midi-file', 'words.mid (byte 0x0)');
  expect(result.stdout).toContain('Keep all 4 zones');
  expect(await score.state()).toEqual(before);
});

describe('a damaged cue', () => {
  const args = ['plan', 'cues', '-i', 'bank.sf2'];

  test('everything is kept, with the doubt that keeps it', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': cutCue() });
    const result = await keepset([...args, '-o', 'keep.json'], { cwd: score.path });
    expect(result.code).toBe(0);
    expect(result.stderr).toMatch(
      /^warning\[cue-damaged\]: .+\n {2}--> cues\/1m2\.mid\n {2}hint: /m,
    );
    expect(result.stdout).toContain('! Damaged: 1m2.');

    const json = await keepset([...args, '--format', 'json'], { cwd: score.path });
    const plan = document(json.stdout, 'plan@1');
    expect(plan.cues.map(({ id, state }) => [id, state])).toEqual([
      ['1m1', 'read'],
      ['1m2', 'damaged'],
    ]);
    const kept = plan.instruments[0]?.kept.map(({ zone, doubts, reasons }) => [
      zone,
      doubts,
      reasons,
    ]);
    expect(kept).toEqual([
      [0, [[]], ['played']],
      [1, [[]], ['played']],
      [2, [['damage']], ['damage']],
      [3, [['damage']], ['damage']],
    ]);
    // By hand: zones 2 and 3 are 400 and 800 frames of 2 bytes.
    expect(plan.doubts).toEqual([{ name: 'damage', settled: null, zones: 2, bytes: 2400 }]);
  });

  test('alone it is damaged too, and --strict makes a failure of it', async ({ score }) => {
    await score.write({ 'cut/1m2.mid': cutCue() });
    const cut = ['plan', 'cut', '-i', 'bank.sf2', '-o', 'keep.json'];
    const lenient = await keepset(cut, { cwd: score.path });
    expect(lenient.code).toBe(0);
    expect(lenient.stdout).toContain('Keep all 4 zones');
    expect(await keepset([...cut, '--strict'], { cwd: score.path })).toEqual({
      ...lenient,
      code: 2,
    });
  });

  test('usage says so', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': cutCue() });
    const { code, stdout, stderr } = await keepset(['usage', 'cues'], { cwd: score.path });
    expect(code).toBe(0);
    expect(stdout).toMatch(/damaged/i);
    expect(stderr).toContain('warning[cue-damaged]');
  });
});

describe('links that go round', () => {
  test.for(['cues', 'cues/**/*.mid', 'cues/**'])(
    '%s ends, and finds each cue once',
    async (cues, { score }) => {
      // Two links to a folder they are in: followed for ever, their number doubles at each step.
      await mkdir(score.at('cues/reel 2'));
      await symlink('..', score.at('cues/reel 2/up'));
      await symlink('.', score.at('cues/here'));
      const { code, stdout } = await keepset(['usage', cues, '--format', 'json'], {
        cwd: score.path,
      });
      expect(code).toBe(0);
      const used = document(stdout, 'usage@1');
      expect(used.cues.flatMap(({ files }) => files.map(({ path }) => path))).toEqual([
        'cues/1m1.mid',
      ]);
    },
  );
});
