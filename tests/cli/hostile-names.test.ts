import { describe, expect } from 'vitest';
import { bank, cue, cutCue, note, plainCue, program } from '../jobs/small-score.ts';
import { keepset, type Ended } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

/** Parts of names that act on a terminal, and what of them must not come out. */
const hostile = [
  { what: 'a line break', part: 'one\ntwo', raw: 'one\ntwo' },
  { what: 'an escape sequence', part: '\x1b[31m', raw: '\x1b' },
  { what: 'a window title', part: '\x1b]0;owned\x07', raw: '\x07' },
  { what: 'one byte that begins a sequence', part: '\u009b31m', raw: '\u009b' },
  { what: 'a right-to-left override', part: '\u202edim.', raw: '\u202e' },
  { what: 'an invisible mark', part: 'zero\u200bwidth', raw: '\u200b' },
  { what: 'a carriage return', part: 'over\rwritten', raw: '\r' },
  { what: 'a line separator', part: 'ls\u2028ps', raw: '\u2028' },
];

/** All of it in one name. */
const name = hostile.map(({ part }) => part).join(' ');

const expectHarmless = ({ stdout, stderr }: Pick<Ended, 'stdout' | 'stderr'>): void => {
  for (const { what, raw } of hostile) {
    expect(stdout.includes(raw), `${what} on stdout`).toBe(false);
    expect(stderr.includes(raw), `${what} on stderr`).toBe(false);
  }
};

test.for([[['-o', `${name}.json`]], [['--verbose']], [['--format', 'json']]])(
  'in the names of cues, folders and the bank: %j',
  async ([more = []], { folder }) => {
    await folder.write({
      [`${name}/${name}.mid`]: cutCue(),
      [`${name}/bad ${name}.mid`]: 'not a cue',
      [`${name}.sf2`]: bank(),
    });
    const plan = ['plan', name, '-i', `${name}.sf2`, ...more];
    const result = await keepset(plan, { cwd: folder.path });
    expect(result.code).toBe(2);
    expect(result.stdout).toContain('one\\');
    expectHarmless(result);
  },
);

test('in the name of the keep file', async ({ score }) => {
  const args = ['plan', 'cues', '-i', 'bank.sf2', '-o', `${name}.json`];
  const result = await keepset(args, { cwd: score.path });
  expect(result.code).toBe(0);
  expect(result.stderr).toMatch(/^wrote .+\n$/);
  expectHarmless(result);
});

test('in the names of tracks', async ({ folder }) => {
  // The writer takes a character for a byte; a reader takes the bytes as UTF-8.
  const bytes = Buffer.from(name, 'utf8').toString('latin1');
  const events = [program(0, 0), note(0, 64)];
  await folder.write({ '1m1.mid': cue({ name: bytes, events }) });
  const result = await keepset(['usage', '1m1.mid'], { cwd: folder.path });
  expect(result.code).toBe(0);
  expect(result.stdout).toContain('one\\x0atwo');
  expectHarmless(result);
});

test.for([
  [name],
  ['help', name],
  ['usage', name],
  ['usage', name, '--debug'],
  ['usage', `--${name}`],
  ['usage', '.', '--format', name],
  ['usage', '.', '--without', name],
  ['plan', '.', '-i', `a.sf2#${name}`],
  ['plan', '.', '-i', name],
  ['plan', '.', '-i', 'a.sf2', '--settle', name],
  ['plan', '.', '-i', 'a.sf2', '-o', `${name}/keep.json`],
  ['demo', '--out', `1m1.mid/${name}`],
])('in what is typed and is wrong: %j', async (args, { folder }) => {
  await folder.write({ '1m1.mid': plainCue() });
  const result = await keepset(args, { cwd: folder.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expect(result.stderr).toMatch(/^error\[/);
  expectHarmless(result);
});

describe('JSON', () => {
  test('holds names as they are, written so that they do not act', async ({ folder }) => {
    const paths = hostile.map(({ part }) => `cues/${part}.mid`);
    for (const path of paths) await folder.write({ [path]: plainCue() });
    const args = ['usage', 'cues', '--format', 'json'];
    const result = await keepset(args, { cwd: folder.path });
    expectHarmless(result);
    const found = document(result.stdout, 'usage@1').cues.map(({ files }) => files[0]?.path);
    expect(found.toSorted()).toEqual(paths.toSorted());
  });
});
