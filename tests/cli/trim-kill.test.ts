/** `keepset trim` stopped at any moment: nothing at the place, or all of it, or what was there before. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { readdir, readFile, stat } from 'node:fs/promises';
import { expect } from 'vitest';
import { writeBank } from '../oracle/soundfont-bytes.ts';
import { bankPlan } from '../jobs/small-score.ts';
import { keepset, program } from './keepset.ts';
import { test as base, type Folder } from './material.ts';
import { document } from './schemas.ts';

/** The small score with a bank whose kept samples are long enough to be interrupted. */
const test = base.extend<{ planned: Folder }>({
  planned: async ({ score }, use) => {
    const samples = bankPlan.samples.map((one) => ({ ...one, frames: 1_500_000 }));
    await score.write({ 'bank.sf2': writeBank({ ...bankPlan, samples }) });
    const args = ['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'];
    expect((await keepset(args, { cwd: score.path })).code).toBe(0);
    await use(score);
  },
});

const args = ['trim', '--keep', 'keep.json', '--out', 'small', '--force', '--quiet'];

/** Runs it and stops it after so many milliseconds; its exit code, or null when it was killed. */
const stopped = (folder: Folder, after: number, signal: NodeJS.Signals): Promise<number | null> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], {
      cwd: folder.path,
      stdio: 'ignore',
    });
    const timer = setTimeout(() => child.kill(signal), after);
    child.on('error', reject);
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve(code);
    });
  });

/** All that its list names is there, and no more. */
const expectWhole = async (folder: Folder): Promise<void> => {
  const list = document(await readFile(folder.at('small/trim.json'), 'utf8'), 'trim@1');
  for (const { path, bytes } of list.files) {
    expect((await stat(folder.at(`small/${path}`))).size).toBe(bytes);
  }
  expect((await readdir(folder.at('small'))).sort()).toEqual([
    'bank.sf2',
    'keepset.yaml',
    'trim.json',
  ]);
};

test('killed at six moments', { timeout: 300_000 }, async ({ planned }) => {
  const begun = performance.now();
  expect(await stopped(planned, 60_000, 'SIGKILL')).toBe(0);
  const whole = performance.now() - begun;
  const first = await planned.state();
  await expectWhole(planned);
  const inputs = Object.entries(first).filter(([name]) => !name.startsWith('small/'));
  for (let trial = 0; trial < 6; trial += 1) {
    await stopped(planned, Math.round((whole * (trial + 1)) / 7), 'SIGKILL');
    if (existsSync(planned.at('small'))) await expectWhole(planned);
    const state = await planned.state();
    for (const [name, digest] of inputs) expect(state[name]).toBe(digest);
    for (const name of await readdir(planned.path)) {
      // What a kill leaves beside the place says by its name that it is none.
      if (name.startsWith('small'))
        expect(name).toMatch(/^small(?:\.[0-9a-f]{8}\.(?:part|old))?$/u);
    }
  }
  // Whatever was left behind, the next one is written as the first was.
  expect(await stopped(planned, 60_000, 'SIGKILL')).toBe(0);
  await expectWhole(planned);
});

test('interrupted, it leaves nothing behind', { timeout: 300_000 }, async ({ planned }) => {
  const before = await planned.state();
  const begun = performance.now();
  expect(await stopped(planned, 60_000, 'SIGINT')).toBe(0);
  const whole = performance.now() - begun;
  const done = await planned.state();
  for (const share of [0.6, 0.8, 0.95]) {
    const code = await stopped(planned, Math.round(whole * share), 'SIGINT');
    // null: on a busy machine it may be stopped before it has begun to listen.
    expect([0, 130, null]).toContain(code);
    expect(await planned.state()).toEqual(done);
  }
  expect(Object.keys(done).length).toBe(Object.keys(before).length + 3);
});
