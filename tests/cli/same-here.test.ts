/**
 * Most tests of the command line run it inside their own process (`keepset`). Here it stands beside a
 * process of its own: each command, each kind of exit, colours and plain lines.
 */
import { rm } from 'node:fs/promises';
import { expect } from 'vitest';
import { cutCue, doubtfulCue } from '../jobs/small-score.ts';
import { keepset, spawnKeepset, type RunOptions } from './keepset.ts';
import { test } from './material.ts';

const bank = ['-i', 'bank.sf2'];
const keep = ['--keep', 'keep.json'];

const lines: readonly {
  readonly args: readonly string[];
  readonly env?: NonNullable<RunOptions['env']>;
  /** Of both. */
  readonly code: number;
}[] = [
  { args: [], code: 2 },
  { args: ['help'], code: 0 },
  { args: ['plan', '--help'], code: 0 },
  { args: ['plan', '--help'], env: { FORCE_COLOR: '1' }, code: 0 },
  { args: ['pln'], code: 2 },
  { args: ['usage', 'cues'], code: 0 },
  { args: ['usage', 'cues'], env: { FORCE_COLOR: '1', LANG: 'C' }, code: 0 },
  { args: ['usage', 'cues', '--format', 'json'], code: 0 },
  { args: ['usage', 'nothing'], code: 2 },
  { args: ['usage', 'nothing', '--format', 'json'], code: 2 },
  { args: ['plan', 'cues', ...bank], code: 0 },
  { args: ['plan', 'cues', ...bank], env: { NO_COLOR: '1', CI: '1', TERM: 'dumb' }, code: 0 },
  { args: ['plan', 'cues', ...bank, '--strict'], code: 2 },
  { args: ['plan', 'cues', ...bank, '--format', 'csv'], code: 0 },
  { args: ['plan', 'cues', ...bank, '-o', 'new.json'], code: 0 },
  { args: ['check', 'cues/1m3.mid', ...keep], code: 1 },
  { args: ['memory', 'cues', ...bank, '--budget', '1 KiB'], code: 1 },
  { args: ['diff', 'keep.json', 'keep.json'], code: 0 },
  { args: ['worklist', ...keep], code: 0 },
  { args: ['worklist', ...keep, '--format', 'markdown'], code: 0 },
  { args: ['trim', ...keep, '--out', 'small', '--format', 'json'], code: 0 },
  { args: ['why', 'bank.sf2', '60', ...keep], code: 0 },
  { args: ['inspect', 'bank.sf2'], code: 0 },
  { args: ['report', 'cues/1m1.mid', ...keep, '-o', 'report.html'], code: 0 },
  { args: ['report', 'cues/1m1.mid', ...keep], code: 0 },
  { args: ['report', 'cues/1m1.mid', ...keep, '--format', 'json'], code: 0 },
  { args: ['completion', 'bash'], code: 0 },
  { args: ['draft', 'cues'], code: 2 },
  { args: ['draft', 'cues', '-o', '-'], code: 0 },
  { args: ['demo'], code: 2 },
];

test.for(lines)('$args $env', async ({ args, env, code }, { score }) => {
  const planned = ['plan', 'cues/1m1.mid', ...bank, '-o', 'keep.json', '-q'];
  expect(await keepset(planned, { cwd: score.path })).toMatchObject({ code: 0 });
  await score.write({ 'cues/1m2.mid': cutCue(), 'cues/1m3.mid': doubtfulCue() });
  const before = await score.state();
  const options = { cwd: score.path, ...(env === undefined ? {} : { env }) };
  const spawned = await spawnKeepset(args, options);
  const written = await score.state();
  for (const name of Object.keys(written)) {
    if (!(name in before)) await rm(score.at(name), { force: true });
  }
  await rm(score.at('small'), { recursive: true, force: true });
  expect(await keepset(args, options)).toEqual(spawned);
  expect(spawned.code).toBe(code);
  expect(await score.state()).toEqual(written);
});
