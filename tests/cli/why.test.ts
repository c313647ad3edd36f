import { readFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { plainCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test, type Folder } from './material.ts';
import { document } from './schemas.ts';

const planned = async (score: Folder): Promise<void> => {
  const made = await keepset(['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'], {
    cwd: score.path,
  });
  expect(made.code).toBe(0);
};

const ask = (score: Folder, ...args: readonly string[]) =>
  keepset(['why', 'bank', '--keep', 'keep.json', ...args], { cwd: score.path });

test('a dropped zone: exit 0, what came nearest, nothing on stderr', async ({ score }) => {
  await planned(score);
  const result = await ask(score, '--zone', '2');
  expect(result).toMatchObject({ code: 0, stderr: '' });
  expect(result.stdout).toContain('Zone 2: dropped.');
  expect(result.stdout).toContain('its articulation is not chosen');
  expect(result.stdout).toContain('1m1 bar 1 beat 2 (0:01), Keys, C3 (48), velocity 80');
});

test('a kept zone and the whole instrument', async ({ score }) => {
  await planned(score);
  const one = await ask(score, '--key', 'E4', '--articulation', 'keys');
  expect(one).toMatchObject({ code: 0, stderr: '' });
  expect(one.stdout).toContain('Zone 1: kept.');
  const all = await ask(score);
  expect(all).toMatchObject({ code: 0, stderr: '' });
  expect(all.stdout).toContain('Why it stays: played 2 zones');
  expect(all.stdout).toContain('Nothing stays of 0:48 Strings.');
});

test('as JSON, on stdout and in a file', async ({ score }) => {
  await planned(score);
  const { stdout } = await ask(score, '--zone', '3', '--format', 'json');
  expect(document(stdout, 'why@1').dropped).toHaveLength(1);
  const written = await ask(score, '--zone', '3', '--format', 'json', '-o', 'why.json');
  expect(written).toMatchObject({ code: 0, stdout: '' });
  expect(await readFile(score.at('why.json'), 'utf8')).toBe(stdout);
  // An older answer gives way.
  expect(await ask(score, '--format', 'json', '-o', 'why.json')).toMatchObject({ code: 0 });
});

test('the keep file and the cues are safe from -o', async ({ score }) => {
  await planned(score);
  const before = await score.state();
  for (const out of ['keep.json', 'bank.sf2', 'cues/1m1.mid']) {
    expect(await ask(score, 'cues', '-i', 'bank.sf2', '-o', out)).toMatchObject({ code: 2 });
  }
  expect(await score.state()).toEqual(before);
});

test('a changed cue is a warning, and an error where those are', async ({ score }) => {
  await planned(score);
  await score.write({ 'cues/1m1.mid': plainCue().subarray(0, -13) });
  const result = await ask(score, '--zone', '3');
  expect(result.code).toBe(0);
  expect(result.stderr).toContain('warning[why-cues-changed]');
  expect(await ask(score, '--zone', '3', '--strict')).toMatchObject({ code: 2 });
});

describe('what can not be asked', () => {
  test.for([
    { args: ['why'], says: /argument/ },
    { args: ['why', 'bank'], says: /Which keep file/ },
    { args: ['why', 'bank', '--keep', 'keep.json', '--velocity', '0'], says: /1 to 127/ },
    { args: ['why', 'bank', '--keep', 'keep.json', '--zone', '-1'], says: /number from 0/ },
    { args: ['why', 'bnak', '--keep', 'keep.json'], says: /Did you mean "bank"/ },
  ])('$args', async ({ args, says }, { score }) => {
    await planned(score);
    const result = await keepset(args, { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toMatch(says);
  });

  test('a keep file that is none', async ({ score }) => {
    await score.write({ 'keep.json': '{' });
    const result = await ask(score);
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expect(result.stderr).not.toMatch(/^\s+at /m);
  });
});
