import { link, mkdir, readFile, symlink } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { plainCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

const plan = ['plan', 'cues', '-i', 'bank.sf2'];

test('the keep file is the JSON of the plan; the table still goes to stdout', async ({ score }) => {
  const { code, stdout, stderr } = await keepset([...plan, '-o', 'keep.json'], { cwd: score.path });
  expect({ code, stderr }).toEqual({ code: 0, stderr: 'wrote keep.json\n' });
  const table = await keepset(plan, { cwd: score.path });
  expect(stdout).toBe(table.stdout);
  const json = await keepset([...plan, '--format', 'json'], { cwd: score.path });
  const written = await readFile(score.at('keep.json'), 'utf8');
  expect(written).toBe(json.stdout);
  document(written, 'plan@1');
});

test('-o - is stdout, without the table', async ({ score }) => {
  const result = await keepset([...plan, '-o', '-'], { cwd: score.path });
  const json = await keepset([...plan, '--format', 'json'], { cwd: score.path });
  expect(result).toEqual(json);
  expect(Object.keys(await score.state())).toEqual(['bank.sf2', 'cues/1m1.mid']);
});

test('an older keep file is replaced, an empty file too', async ({ score }) => {
  await score.write({ 'empty.json': '' });
  await keepset([...plan, '-o', 'keep.json'], { cwd: score.path });
  const old = await readFile(score.at('keep.json'), 'utf8');
  await score.write({ 'cues/1m2.mid': plainCue() });
  for (const out of ['keep.json', 'empty.json']) {
    expect(await keepset([...plan, '-o', out], { cwd: score.path })).toMatchObject({ code: 0 });
  }
  const renewed = await readFile(score.at('keep.json'), 'utf8');
  expect(document(renewed, 'plan@1').cues).toHaveLength(2);
  expect(renewed).not.toBe(old);
  expect(await readFile(score.at('empty.json'), 'utf8')).toBe(renewed);
  expect(Object.keys(await score.state())).toHaveLength(5);
});

describe('what is refused, before any work, with nothing written', () => {
  const refused = [
    { what: 'a cue', out: 'cues/1m1.mid' },
    { what: 'a cue that is left out', out: 'cues/1m2.mid', more: ['--without', '1m2'] },
    { what: 'the bank', out: 'bank.sf2' },
    { what: 'the bank of a preset', out: 'bank.sf2', plan: ['plan', 'cues', '-i', 'bank.sf2#0:0'] },
    { what: 'a cue by another path', out: 'cues/../cues/1m1.mid' },
    { what: 'a link to a cue', out: 'linked.mid' },
    { what: 'a second name of a cue', out: 'second.mid' },
  ];
  test.for(refused)('$what', async ({ out, more = [], plan: own = plan }, { score }) => {
    await score.write({ 'cues/1m2.mid': plainCue() });
    await symlink(score.at('cues/1m1.mid'), score.at('linked.mid'));
    await link(score.at('cues/1m1.mid'), score.at('second.mid'));
    const before = await score.state();
    const result = await keepset([...own, ...more, '-o', out], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'output-unwritable', out);
    expect(result.stderr).toContain('it is one of the inputs');
    expect(await score.state()).toEqual(before);
  });

  test('another file that is no keep file', async ({ score }) => {
    await score.write({ 'notes.txt': 'do not lose me' });
    const before = await score.state();
    const result = await keepset([...plan, '-o', 'notes.txt'], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'output-exists', 'notes.txt');
    expect(await score.state()).toEqual(before);
  });

  test.for([
    { what: 'a folder that is not there', out: 'no/keep.json', says: 'folder does not exist' },
    { what: 'a folder in the way', out: 'folder', says: 'not a file is there' },
    { what: 'a file as a folder', out: 'bank.sf2/keep.json', says: 'is not a folder' },
    { what: 'no name', out: '', says: 'not the name of a file' },
    { what: 'the name of a folder', out: 'new/', says: 'not the name of a file' },
    { what: 'a device', out: '/dev/null', says: 'not a file is there' },
    { what: 'too long a name', out: `${'k'.repeat(300)}.json`, says: 'the name is too long' },
  ])('$what', async ({ out, says }, { score }) => {
    await mkdir(score.at('folder'));
    const before = await score.state();
    const result = await keepset([...plan, '-o', out], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'output-unwritable', out);
    expect(result.stderr).toContain(says);
    expect(await score.state()).toEqual(before);
  });

  const isRoot = process.getuid?.() === 0;
  if (isRoot) console.log('skipped: a folder that is read-only (root may write anywhere)');
  test.skipIf(isRoot)('a folder that is read-only', async ({ score }) => {
    await mkdir(score.at('locked'), { mode: 0o500 });
    const result = await keepset([...plan, '-o', 'locked/keep.json'], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'output-unwritable', 'locked/keep.json');
  });
});

describe('a cue that can not be read', () => {
  test('no keep file, unless it is left out by name', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': 'not a cue' });
    const before = await score.state();
    const refused = await keepset([...plan, '-o', 'keep.json'], { cwd: score.path });
    expect(refused.code).toBe(2);
    expect(refused.stdout).toContain('! Not readable: 1m2.');
    expectError(refused, 'midi-not-a-midi-file', 'cues/1m2.mid (byte 0x0)');
    expect(refused.stderr).toContain('--without 1m2');
    expect(refused.stderr).not.toContain('wrote');
    expect(await score.state()).toEqual(before);

    const args = [...plan, '-o', 'keep.json', '--without', '1m2'];
    expect(await keepset(args, { cwd: score.path })).toMatchObject({ code: 0 });
    const kept = document(await readFile(score.at('keep.json'), 'utf8'), 'plan@1');
    expect(kept.settings.without).toEqual(['1m2']);
    expect(kept.cues.map(({ id }) => id)).toEqual(['1m1']);
  });

  test('-o - prints nothing', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': 'not a cue' });
    const refused = await keepset([...plan, '-o', '-'], { cwd: score.path });
    expect(refused).toMatchObject({ code: 2, stdout: '' });
    expectError(refused, 'usage');
  });

  test('its name is safe to paste into a shell', async ({ score }) => {
    await score.write({ "cues/it's $(touch pasted).mid": 'not a cue' });
    const { stderr } = await keepset([...plan, '-o', 'keep.json'], { cwd: score.path });
    expect(stderr).toContain(`--without 'cues/it'\\''s $(touch pasted)'`);
  });
});
