import { readFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { cue, note, program } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test, type Folder } from './material.ts';
import { document } from './schemas.ts';

/**
 * E4 as before, and C3 of program 48 instead of program 0: both zones of Strings come, since E4 and a
 * program stand on one tick (doubt order), and one of Keys goes.
 */
const revisedCue = (): Uint8Array =>
  cue({ name: 'Keys', events: [program(0, 0), note(0, 64), program(480, 48), note(960, 48)] });

/** `keep.json` of the cue, then `keep-2.json` of its revision. */
const planTwice = async (score: Folder): Promise<void> => {
  await keepset(['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'], { cwd: score.path });
  await score.write({ 'cues/1m1.mid': revisedCue() });
  await keepset(['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep-2.json'], { cwd: score.path });
};

const diff = ['diff', 'keep.json', 'keep-2.json'];

describe('diff', () => {
  test('says what to load and to unload, and exits with 0', async ({ score }) => {
    await planTwice(score);
    const { code, stdout, stderr } = await keepset(diff, { cwd: score.path });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    // 16 bits: 400 and 800 frames of Strings come, 100 of Keys low go, 200 of Keys high stay.
    expect(stdout).toContain(
      'Load 2 zones (2.34 KiB) and unload 1 zone (200 B) to go from keep.json to keep-2.json.',
    );
    expect(stdout).toMatch(/^load +0:48 Strings +C-1-G9 \(0-127\) +2$/m);
    expect(stdout).toMatch(/^unload +0:0 Keys +C-1-B3 \(0-59\) +1$/m);
  });

  test('as JSON and as CSV, on stdout and in a file', async ({ score }) => {
    await planTwice(score);
    const json = await keepset([...diff, '--format', 'json'], { cwd: score.path });
    const result = document(json.stdout, 'diff@1');
    expect(result.total).toEqual({
      load: { zones: 2, samples: 2, bytes: 2_400 },
      unload: { zones: 1, samples: 1, bytes: 200 },
      unchanged: { zones: 1, samples: 1, bytes: 400 },
    });
    const out = [...diff, '--format', 'json', '-o', 'diff.json'];
    for (const args of [out, out]) {
      expect(await keepset(args, { cwd: score.path })).toEqual({ code: 0, stdout: '', stderr: '' });
      expect(await readFile(score.at('diff.json'), 'utf8')).toBe(json.stdout);
    }
    const csv = await keepset([...diff, '--format', 'csv', '-o', '-'], { cwd: score.path });
    expect(csv.stdout.split('\r\n')).toEqual([
      'action,machine,instrument,copy,articulations,zone,key,keys,velocities,controllers,samples',
      expect.stringMatching(/^unload,default,bank,,0:0 Keys,.*,0:Keys low$/),
      expect.stringMatching(/^load,default,bank,,0:48 Strings,.*,2:Strings low$/),
      expect.stringMatching(/^load,default,bank,,0:48 Strings,.*,3:Strings high$/),
      '',
    ]);
    const file = [...diff, '--format', 'csv', '-o', 'diff.csv'];
    expect(await keepset(file, { cwd: score.path })).toEqual({
      code: 0,
      stdout: '',
      stderr: 'wrote diff.csv\n',
    });
    expect(await readFile(score.at('diff.csv'), 'utf8')).toBe(csv.stdout);
  });

  test('of the same file twice is one line', async ({ score }) => {
    await planTwice(score);
    const { code, stdout } = await keepset(['diff', 'keep.json', 'keep.json'], { cwd: score.path });
    expect(code).toBe(0);
    expect(stdout).toBe(
      'Nothing to load or unload: keep.json and keep.json keep the same 2 zones (600 B).\n',
    );
  });

  test('without the instrument it tells zones, and says why it tells no bytes', async ({
    score,
    folder,
  }) => {
    await planTwice(score);
    await folder.write({
      'elsewhere/keep.json': await readFile(score.at('keep.json')),
      'elsewhere/keep-2.json': await readFile(score.at('keep-2.json')),
    });
    const { code, stdout, stderr } = await keepset(diff, { cwd: folder.at('elsewhere') });
    expect(code).toBe(0);
    expect(stdout).toContain('Load 2 zones and unload 1 zone to go from keep.json to keep-2.json.');
    expect(stdout).toContain('600 B were kept and 2.73 KiB will be, 2.15 KiB more.');
    expect(stderr).toContain('warning[diff-without-bytes]: ');
    const strict = await keepset([...diff, '--strict'], { cwd: folder.at('elsewhere') });
    expect(strict.code).toBe(2);
  });
});

describe('bad input', () => {
  test.for([
    { what: 'no such keep file', args: ['diff', 'keep.json', 'none.json'], code: 'path-missing' },
    { what: 'no second file', args: ['diff', 'keep.json'], code: 'usage' },
    { what: 'a cue', args: ['diff', 'keep.json', 'cues/1m1.mid'], code: 'keep-file' },
    { what: 'no such template', args: [...diff, '--template', 'no.yaml'], code: 'path-missing' },
    { what: 'no such instrument', args: [...diff, '-i', 'no.sf2'], code: 'path-missing' },
    {
      what: 'a template and an instrument',
      args: [...diff, '--template', 'no.yaml', '-i', 'bank.sf2'],
      code: 'usage',
    },
    { what: 'a keep file to write on', args: [...diff, '-o', 'keep.json'], code: 'output-exists' },
    { what: 'no folder', args: [...diff, '-o', 'no/diff.json'], code: 'output-unwritable' },
  ])('$what', async ({ args, code }, { score }) => {
    await planTwice(score);
    const before = await score.state();
    const result = await keepset(args, { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    const [, full = code] =
      new RegExp(`^error\\[(${code}[a-z-]*)\\]`, 'm').exec(result.stderr) ?? [];
    const [, where = null] = /^ {2}--> (.*)$/m.exec(result.stderr) ?? [];
    expectError(result, full, where);
    expect(where?.replace(/:\d+:\d+$/, '') ?? null).toBe(code === 'usage' ? null : args.at(-1));
    expect(await score.state()).toEqual(before);
  });
});
