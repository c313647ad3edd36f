import { mkdir, readFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import type { Draft } from '../../src/draft/draft.ts';
import { cueOf } from '../draft/track-file.ts';
import { bank, cutCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test, type Folder } from './material.ts';

const draft = ['draft', 'cues', '-o', 'keepset.yaml'];
const update = [...draft, '--update'];

/** `cues/1m1.mid` with a harp and two articulations of the cellos. */
const write = (folder: Folder): Promise<void> =>
  folder.write({
    'cues/1m1.mid': cueOf([{ name: 'Harp' }, { name: 'Vc leg' }, { name: 'Vc stac' }]),
  });

const read = (folder: Folder, name = 'keepset.yaml'): Promise<string> =>
  readFile(folder.at(name), 'utf8');

describe('keepset draft', () => {
  test('writes a template that plan reads once the files are filled in', async ({ folder }) => {
    await write(folder);
    const result = await keepset(draft, { cwd: folder.path });
    expect(result).toEqual({
      code: 0,
      stdout: '',
      stderr:
        'wrote keepset.yaml\n3 tracks found; fill in 2 files marked "fill in"; look through the routes, then run: keepset plan\n',
    });
    await folder.write({ 'instruments/harp.sf2': bank(), 'instruments/vc.sf2': bank() });
    const plan = await keepset(['plan', '--format', 'json'], { cwd: folder.path });
    expect(plan.code).toBe(0);
    expect(plan.stderr).toBe('');
  });

  test('to stdout, as the file would be', async ({ folder }) => {
    await write(folder);
    const onStdout = await keepset(['draft', 'cues', '-o', '-'], { cwd: folder.path });
    expect(onStdout).toMatchObject({ code: 0, stderr: '' });
    await keepset([...draft, '--quiet'], { cwd: folder.path });
    expect(await read(folder)).toBe(onStdout.stdout);
  });

  test('as JSON on stdout beside the file', async ({ folder }) => {
    await write(folder);
    const { code, stdout, stderr } = await keepset([...draft, '--format', 'json'], {
      cwd: folder.path,
    });
    expect([code, stderr]).toEqual([0, '']);
    const { text, added, groups } = JSON.parse(stdout) as Draft;
    expect(text).toBe(await read(folder));
    expect(added).toBe(3);
    expect(groups.map(({ instrument, articulations }) => [instrument, articulations])).toEqual([
      ['harp', []],
      ['vc', ['legato', 'staccato']],
    ]);
  });

  test('names the cues from the folder of the template', async ({ folder }) => {
    await write(folder);
    await mkdir(folder.at('show/reel'), { recursive: true });
    const args = ['draft', './cues/', folder.at('cues/1m1.mid'), '-o', 'show/reel/k.yaml'];
    const { stderr } = await keepset(args, { cwd: folder.path });
    expect(stderr).toContain('keepset plan --template show/reel/k.yaml\n');
    expect(await read(folder, 'show/reel/k.yaml')).toContain(
      'cues:\n  - "../../cues"\n  - "../../cues/1m1.mid"\n',
    );
  });

  test('never writes over anything', async ({ folder }) => {
    await write(folder);
    await folder.write({ 'keepset.yaml': '', 'mine.sf2': bank() });
    const before = await folder.state();
    for (const out of ['keepset.yaml', 'mine.sf2', 'cues/1m1.mid']) {
      const result = await keepset(['draft', 'cues', '-o', out], { cwd: folder.path });
      expect(result).toMatchObject({ code: 2, stdout: '' });
      expectError(result, 'usage');
      expect(result.stderr).toContain('--update');
    }
    for (const out of ['cues', 'none/k.yaml']) {
      const result = await keepset(['draft', 'cues', '-o', out], { cwd: folder.path });
      expectError(result, 'output-unwritable', out);
    }
    expect(await folder.state()).toEqual(before);
  });

  test('of a cue that is cut off, says in the file that something is missing', async ({
    folder,
  }) => {
    await write(folder);
    await folder.write({ 'cues/1m2.mid': cutCue(), 'cues/1m3.mid': 'not a cue' });
    const { code, stderr } = await keepset(draft, { cwd: folder.path });
    expect(code).toBe(2);
    expect(stderr).toContain('error[midi-not-a-midi-file]');
    expect(await read(folder)).toContain('# NOT COMPLETE: of 1m2, 1m3 ');
  });

  test('asks where to', async ({ folder }) => {
    await write(folder);
    expectError(await keepset(['draft', 'cues'], { cwd: folder.path }), 'usage');
  });
});

describe('keepset draft --update', () => {
  test('adds new tracks, and the second time finds nothing to add', async ({ folder }) => {
    await write(folder);
    await keepset(draft, { cwd: folder.path });
    const before = await read(folder);
    await folder.write({ 'cues/1m2.mid': cueOf([{ name: 'Harp' }, { name: 'Cel' }]) });
    const first = await keepset(update, { cwd: folder.path });
    expect(first).toEqual({
      code: 0,
      stdout: '',
      stderr:
        'wrote keepset.yaml\n1 track added, each with a comment "added"; fill in the file marked "fill in"; look through the routes, then run: keepset plan\n',
    });
    const after = await read(folder);
    const old = new Set(before.split('\n'));
    expect(after.split('\n').filter((line) => !old.has(line))).toEqual([
      '  # added: Cel',
      '  cel: { file: instruments/cel.sf2 }  # fill in',
      '  # added: Cel',
      '  - { track: "Cel", instrument: cel }',
    ]);
    const again = await keepset(update, { cwd: folder.path });
    expect(again).toEqual({
      code: 0,
      stdout: '',
      stderr: 'nothing to add: every track with notes has a rule in keepset.yaml\n',
    });
    expect(await read(folder)).toBe(after);
  });

  test('a template elsewhere', async ({ folder }) => {
    await write(folder);
    await mkdir(folder.at('show'));
    const elsewhere = ['draft', 'cues', '-o', 'show/keepset.yaml'];
    await keepset(elsewhere, { cwd: folder.path });
    const again = await keepset([...elsewhere, '--update'], { cwd: folder.path });
    expect(again).toMatchObject({ code: 0, stdout: '' });
    expect(again.stderr).toMatch(/^nothing to add/);
  });

  test('needs a template, which stays when it is not sound', async ({ folder }) => {
    await write(folder);
    expectError(await keepset(update, { cwd: folder.path }), 'usage');
    const onStdout = ['draft', 'cues', '-o', '-', '--update'];
    expectError(await keepset(onStdout, { cwd: folder.path }), 'usage');
    await folder.write({ 'keepset.yaml': 'rotes: []\n' });
    const result = await keepset(update, { cwd: folder.path });
    expect(result.code).toBe(2);
    expectError(result, 'yaml-key-unknown', 'keepset.yaml:1:1');
    expect(await read(folder)).toBe('rotes: []\n');
  });
});

describe('keepset draft --outlines', () => {
  const outlined = [...draft, '--outlines', 'outlines'];

  test('writes an outline for each new instrument, in a folder that it makes', async ({
    folder,
  }) => {
    await write(folder);
    const result = await keepset(outlined, { cwd: folder.path });
    expect(result).toEqual({
      code: 0,
      stdout: '',
      stderr:
        'wrote 2 outlines to outlines\nwrote keepset.yaml\n3 tracks found; fill in 2 outlines; look through the routes, then run: keepset plan\n',
    });
    expect(await read(folder)).toContain('  vc: { outline: outlines/vc.yaml }  # fill in\n');
    expect(await read(folder, 'outlines/vc.yaml')).toContain('\n  legato:\n');
    expect(await read(folder, 'outlines/harp.yaml')).toContain('\n  as played:\n');
    const plan = await keepset(['plan', '--format', 'json'], { cwd: folder.path });
    expect(plan.code).toBe(0);
    const inspect = await keepset(['inspect', 'outlines/vc.yaml'], { cwd: folder.path });
    expect(inspect.code).toBe(0);
  });

  test('with the name that the manuals have for key 60', async ({ folder }) => {
    await write(folder);
    const { code } = await keepset([...outlined, '--middle-c', 'C3'], { cwd: folder.path });
    expect(code).toBe(0);
    expect(await read(folder, 'outlines/harp.yaml')).toContain('\nmiddle-c: C3\n');
    expect(await read(folder)).toContain('\nmiddle-c: C4\n');
    const plan = await keepset(['plan', '--format', 'json'], { cwd: folder.path });
    expect(plan.code).toBe(0);
  });

  test('no name of key 60 without outlines to write it in', async ({ folder }) => {
    await write(folder);
    const before = await folder.state();
    const result = await keepset([...draft, '--middle-c', 'C3'], { cwd: folder.path });
    expect(result.code).toBe(2);
    expectError(result, 'usage');
    expect(await folder.state()).toEqual(before);
  });

  test('never over one that is there', async ({ folder }) => {
    await write(folder);
    await folder.write({ 'outlines/vc.yaml': 'mine' });
    const { code, stderr } = await keepset(outlined, { cwd: folder.path });
    expect(code).toBe(0);
    expect(stderr).toContain(
      'wrote 1 outline to outlines\n1 outline in outlines was there already and stays as it is\n',
    );
    expect(await read(folder, 'outlines/vc.yaml')).toBe('mine');
  });

  test('an update adds those of new instruments', async ({ folder }) => {
    await write(folder);
    await keepset(outlined, { cwd: folder.path });
    const before = await folder.state();
    const nothing = await keepset([...outlined, '--update'], { cwd: folder.path });
    expect(nothing.stderr).toMatch(/^nothing to add/);
    expect(await folder.state()).toEqual(before);
    await folder.write({ 'cues/1m2.mid': cueOf([{ name: 'Harp' }, { name: 'Cel' }]) });
    const { stderr } = await keepset([...outlined, '--update'], { cwd: folder.path });
    expect(stderr).toContain('wrote 1 outline to outlines\nwrote keepset.yaml\n');
    expect(await read(folder)).toContain('  cel: { outline: outlines/cel.yaml }  # fill in\n');
    expect(Object.keys(await folder.state())).toContain('outlines/cel.yaml');
  });

  test('nothing is written to look at it first; as JSON the outlines are in it', async ({
    folder,
  }) => {
    await write(folder);
    const before = await folder.state();
    const look = ['draft', 'cues', '-o', '-', '--outlines', 'outlines'];
    const shown = await keepset(look, { cwd: folder.path });
    expect(shown).toMatchObject({ code: 0, stderr: '' });
    expect(shown.stdout).toContain('outline: outlines/harp.yaml');
    const { stdout } = await keepset([...look, '--format', 'json'], { cwd: folder.path });
    expect((JSON.parse(stdout) as Draft).outlines).toMatchObject([
      { instrument: 'harp', path: 'outlines/harp.yaml', isThere: false },
      { instrument: 'vc', path: 'outlines/vc.yaml', isThere: false },
    ]);
    expect(await folder.state()).toEqual(before);
  });

  test('a file where the folder should be, or no name: nothing is written', async ({ folder }) => {
    await write(folder);
    await folder.write({ outlines: 'a file' });
    const before = await folder.state();
    const result = await keepset(outlined, { cwd: folder.path });
    expect(result.code).toBe(2);
    expectError(result, 'output-unwritable', 'outlines');
    const noName = await keepset([...draft, '--outlines', ''], { cwd: folder.path });
    expect(noName.code).toBe(2);
    expectError(noName, 'usage');
    expect(await folder.state()).toEqual(before);
  });
});
