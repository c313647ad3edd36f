import { describe, expect } from 'vitest';
import { cutCue } from '../jobs/small-score.ts';
import { expectError, spawnKeepset as keepset } from './keepset.ts';
import { test } from './material.ts';

/*
 * Every code that help lists. 1 (a check failed) has no command yet that returns it; the bad inputs
 * that return 2 have tests of their own.
 */

const plan = ['plan', 'cues', '-i', 'bank.sf2'];

/** A module that is loaded first and makes the clock, which `plan` asks once, do something else. */
const whenPlanning = (code: string): string =>
  `data:text/javascript,${encodeURIComponent(`performance.now = () => { ${code} };`)}`;

test('0: done', async ({ score }) => {
  expect(await keepset(plan, { cwd: score.path })).toMatchObject({ code: 0, stderr: '' });
});

test('0: done, with warnings', async ({ score }) => {
  await score.write({ 'cues/1m2.mid': cutCue() });
  const result = await keepset(plan, { cwd: score.path });
  expect(result.code).toBe(0);
  expect(result.stderr).toMatch(/^warning\[cue-damaged\]: /m);
});

test('2: warnings under --strict', async ({ score }) => {
  await score.write({ 'cues/1m2.mid': cutCue() });
  const lenient = await keepset(plan, { cwd: score.path });
  const strict = await keepset([...plan, '--strict'], { cwd: score.path });
  expect(strict).toEqual({ ...lenient, code: 2 });
});

test('2: bad usage', async ({ score }) => {
  expect(await keepset(['plan', 'cues'], { cwd: score.path })).toMatchObject({ code: 2 });
});

test('2: bad input', async ({ score }) => {
  expect(await keepset(['usage', 'nothing'], { cwd: score.path })).toMatchObject({ code: 2 });
});

describe('70: a fault of keepset', () => {
  const preload = whenPlanning(`throw new Error('the clock \\x1b[31mstands still')`);

  test('says so, without a stack', async ({ score }) => {
    const result = await keepset(plan, { cwd: score.path, preload });
    expect(result).toMatchObject({ code: 70, stdout: '' });
    expectError({ stderr: result.stderr.replace(/still$/m, 'still.') }, 'internal');
    expect(result.stderr).toContain('the clock \\x1b[31mstands still');
    expect(result.stderr).toContain('--debug');
  });

  test('with --debug says where, and is as harmless to the terminal', async ({ score }) => {
    const result = await keepset([...plan, '--debug'], { cwd: score.path, preload });
    expect(result.code).toBe(70);
    expect(result.stderr).toMatch(/^ {4}at /m);
    expect(result.stderr).not.toContain('\x1b');
  });
});

describe('130: interrupted', () => {
  test('in the middle of the work', async ({ score }) => {
    const preload = whenPlanning(`process.kill(process.pid, 'SIGINT'); return 0;`);
    const result = await keepset([...plan, '-o', 'keep.json'], { cwd: score.path, preload });
    const stderr = 'interrupted: nothing was written\n';
    expect(result).toEqual({ code: 130, stdout: '', stderr });
    expect(Object.keys(await score.state())).toEqual(['bank.sf2', 'cues/1m1.mid']);
  });

  test('in the middle of writing: no half-written file stays', async ({ score }) => {
    const preload = `data:text/javascript,${encodeURIComponent(`
      import { syncBuiltinESMExports } from 'node:module';
      import { readdirSync } from 'node:fs';
      import files from 'node:fs/promises';
      files.rename = () => {
        if (readdirSync('.').some((name) => name.endsWith('.part'))) {
          process.kill(process.pid, 'SIGINT');
        }
        return new Promise(() => setTimeout(() => {}, 60_000));
      };
      syncBuiltinESMExports();
    `)}`;
    const result = await keepset([...plan, '-o', 'keep.json'], { cwd: score.path, preload });
    // It was about to take its place.
    const stderr = 'interrupted: nothing is left half-written\n';
    expect(result).toEqual({ code: 130, stdout: '', stderr });
    expect(Object.keys(await score.state())).toEqual(['bank.sf2', 'cues/1m1.mid']);
  });
});
