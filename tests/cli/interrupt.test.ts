/** Ctrl-C at any moment: the old file, the new one, or none; nothing beside it; one line on stderr. */
import { spawn } from 'node:child_process';
import { rm } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { keepset, program } from './keepset.ts';
import { test, type Folder } from './material.ts';

interface Stopped {
  /** null: it had not begun to listen. */
  readonly code: number | null;
  readonly stderr: string;
}

/** Runs keepset and interrupts it after so many milliseconds. */
const interrupted = ({ path }: Folder, args: readonly string[], after: number): Promise<Stopped> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], {
      cwd: path,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    const timer = setTimeout(() => child.kill('SIGINT'), after);
    let stderr = '';
    child.stderr.on('data', (bytes: Buffer) => (stderr += bytes.toString()));
    child.on('error', reject);
    child.on('close', (code) => {
      clearTimeout(timer);
      resolve({ code, stderr });
    });
  });

/** Each writes one thing. What it needs is planned before. */
const commands = [
  ['plan', ['plan', 'cues', '-i', 'bank.sf2', '-o', 'out.json']],
  ['draft', ['draft', 'cues', '-o', 'out.yaml']],
  ['worklist', ['worklist', '--keep', 'keep.json', '--loaded', 'out.csv']],
  ['primer', ['primer', '--keep', 'keep.json', '-o', 'out.mid']],
  ['trim', ['trim', '--keep', 'keep.json', '--out', 'out']],
  ['report', ['report', '--keep', 'keep.json', '-o', 'out.html']],
] as const;

describe.each(commands)('%s', (_, args) => {
  test('leaves all of it or nothing', async ({ score }) => {
    const planned = await keepset(['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'], {
      cwd: score.path,
    });
    expect(planned.code).toBe(0);
    const before = await score.state();
    const begun = performance.now();
    // Late enough for it to listen, and by chance before or after it writes.
    const first = await interrupted(score, args, 60_000);
    const whole = performance.now() - begun;
    expect([0, 1]).toContain(first.code);
    const done = await score.state();
    expect(Object.keys(done).length).toBeGreaterThan(Object.keys(before).length);
    for (const share of [0.5 + Math.random() * 0.3, 0.8 + Math.random() * 0.2]) {
      for (const name of Object.keys(done)) {
        if (!(name in before))
          await rm(score.at(name.split('/')[0]!), { recursive: true, force: true });
      }
      const { code, stderr } = await interrupted(score, args, whole * share);
      const state = await score.state();
      expect([before, done]).toContainEqual(state);
      if (code !== 130) continue;
      const said = /^interrupted: (.*)$/mu.exec(stderr)?.[1];
      expect(said).toMatch(/^(?:nothing was written|nothing is left half-written)$/u);
      if (said === 'nothing was written') expect(state).toEqual(before);
    }
  });
});

test('the demo goes on where it was interrupted', async ({ folder }) => {
  const args = ['demo', '--out', 'harbour', '--quiet'];
  await interrupted(folder, args, 900);
  expect((await keepset(args, { cwd: folder.path })).code).toBe(0);
  const state = await folder.state();
  expect(Object.keys(state)).toContain('harbour/keepset.yaml');
  expect(Object.keys(state).filter((name) => name.endsWith('.part'))).toEqual([]);
});
