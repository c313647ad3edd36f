import { readFile } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import { describe, expect } from 'vitest';
import type { Check } from '../../src/keep/check/check.ts';
import { cue, cutCue, note, program } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test as base, type Folder } from './material.ts';
import { document } from './schemas.ts';

/** The small score, its plan, and cues that arrive later. */
const test = base.extend<{ planned: Folder }>({
  planned: async ({ score }, use) => {
    const made = await keepset(['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'], {
      cwd: score.path,
    });
    expect(made.code).toBe(0);
    await score.write({
      // Other keys of the two zones that are kept.
      'new/1m2.mid': cue({ name: 'Keys', events: [program(0, 0), note(0, 65), note(480, 40)] }),
      // Strings: nothing of them is kept.
      'new/1m1 v2.mid': cue({
        name: 'Keys',
        events: [program(0, 0), note(0, 64), program(960, 48), note(1920, 72, 90)],
      }),
      'new/1m3.mid': cutCue(),
    });
    await use(score);
  },
});

const checkOf = async (
  folder: Folder,
  cues: readonly string[],
  more: readonly string[] = [],
): Promise<{ readonly code: number | null; readonly check: Check }> => {
  const args = ['check', ...cues, '--keep', 'keep.json', '--format', 'json', ...more];
  const { code, stdout, stderr } = await keepset(args, { cwd: folder.path });
  expect(stderr).toBe('');
  return { code, check: document(stdout, 'check@1') };
};

test('0: the cues of the plan, and a new one that needs no more', async ({ planned }) => {
  const same = await checkOf(planned, ['cues']);
  expect([same.code, same.check.verdict]).toEqual([0, 'proved']);
  expect(same.check.proof.cues.map(({ id, change }) => [id, change])).toEqual([['1m1', 'same']]);
  const more = await checkOf(planned, ['new/1m2.mid']);
  expect([more.code, more.check.verdict]).toEqual([0, 'proved']);
  expect(more.check.proof).toMatchObject({ absent: ['1m1'], notes: 2, template: 'none' });
  const table = await keepset(['check', 'cues', '--keep', 'keep.json'], { cwd: planned.path });
  expect(table).toMatchObject({ code: 0, stderr: '' });
  expect(table.stdout).toMatch(/^PROVED/);
});

test('1: what is missing, where, and what it takes', async ({ planned }) => {
  const { code, check } = await checkOf(planned, ['new/1m1 v2.mid']);
  expect([code, check.verdict]).toEqual([1, 'missing']);
  // The fourth zone of the bank: strings from middle C up, a sample of 800 frames of 2 bytes.
  expect(check.misses).toHaveLength(1);
  expect(check.misses[0]).toMatchObject({
    zone: 3,
    samples: ['3:Strings high'],
    articulations: ['0:48 Strings'],
    doubts: [[]],
    notes: 1,
    cues: { '1m1 v2': 1 },
    bytes: 1600,
    bars: [{ cue: '1m1 v2', track: 0, trackName: 'Keys', bars: [[2, 2]] }],
  });
  expect(check.misses[0]!.places).toEqual([
    {
      ...{ cue: '1m1 v2', track: 0, trackName: 'Keys', tick: 1920, bar: 2, beat: 1, seconds: 2 },
      ...{ timecode: null, key: 72, velocity: 90 },
    },
  ]);
  expect(check.total).toEqual({ misses: 1, notes: 1, doubtfulNotes: 1, bytes: 1600 });
  // In the presets that are kept the same key would sound.
  expect(check.misses[0]!.ways).toEqual([
    { kind: 'articulation', articulation: '0:0 Keys', switch: expect.any(String) as string },
  ]);
  const table = await keepset(['check', 'new/1m1 v2.mid', '--keep', 'keep.json'], {
    cwd: planned.path,
  });
  expect(table.code).toBe(1);
  expect(table.stdout).toMatch(/^MISSING: 1m1 v2 /);
  expect(table.stdout).toMatch(/bar 2 beat 1/);
});

test('1: a damaged cue is not proved, though nothing of it is missing', async ({ planned }) => {
  const { code, check } = await checkOf(planned, ['new/1m3.mid']);
  expect([code, check.verdict, check.misses]).toEqual([1, 'not-proved', []]);
  expect(check.open).toEqual(['cue-damaged']);
});

test('1: a file that is no cue is not proved either, and does not stop the others', async ({
  planned,
}) => {
  await planned.write({ 'new/1m4.mid': 'not a cue' });
  const { code, check } = await checkOf(planned, ['new']);
  expect([code, check.verdict]).toEqual([1, 'missing']);
  expect(check.open).toContain('midi-not-a-midi-file');
  expect(check.proof.cues.map(({ id, state }) => [id, state])).toContainEqual([
    '1m4',
    'unreadable',
  ]);
});

test('1: an instrument that is not that of the plan is not compared', async ({ planned }) => {
  const bytes = new Uint8Array(await readFile(planned.at('bank.sf2')));
  // One letter of a sample's name in the lists.
  const text = Buffer.from(bytes).toString('latin1');
  bytes[text.lastIndexOf('Strings high')] = 'T'.charCodeAt(0);
  await planned.write({ 'bank.sf2': bytes });
  const { code, check } = await checkOf(planned, ['cues']);
  expect([code, check.verdict, check.open]).toEqual([
    1,
    'not-proved',
    ['check-instrument-changed'],
  ]);
});

describe('2', () => {
  test('no keep file, one that is none, one that is cut off', async ({ planned }) => {
    const run = (keep: readonly string[]) =>
      keepset(['check', 'cues', ...keep], { cwd: planned.path });
    const none = await run([]);
    expect(none.code).toBe(2);
    expectError(none, 'usage');
    const missing = await run(['--keep', 'kep.json']);
    expect(missing.code).toBe(2);
    expectError(missing, 'path-missing', 'kep.json');
    await planned.write({ 'other.json': '{ "schema": "keepset/usage@1" }' });
    const other = await run(['--keep', 'other.json']);
    expect(other.code).toBe(2);
    expectError(other, 'keep-file-schema', 'other.json');
    const whole = await readFile(planned.at('keep.json'), 'utf8');
    await planned.write({ 'cut.json': whole.slice(0, whole.length / 2) });
    const cut = await run(['--keep', 'cut.json']);
    expect(cut.code).toBe(2);
    expect(cut.stderr).toContain('error[keep-file-json]');
  });

  test('a keep file that does not agree with itself', async ({ planned }) => {
    const keep = JSON.parse(await readFile(planned.at('keep.json'), 'utf8')) as {
      total: { zonesKept: number };
    };
    keep.total.zonesKept++;
    await planned.write({ 'edited.json': JSON.stringify(keep) });
    const edited = await keepset(['check', 'cues', '--keep', 'edited.json'], {
      cwd: planned.path,
    });
    expect(edited.code).toBe(2);
    expectError(edited, 'keep-file-disagrees', 'edited.json');
  });
});

test('CSV: a row for each missing zone; -o writes it', async ({ planned }) => {
  const before = await planned.state();
  const args = ['check', 'new', '--keep', 'keep.json', '--format', 'csv', '-o', 'misses.csv'];
  const { code, stdout } = await keepset(args, { cwd: planned.path });
  expect([code, stdout]).toEqual([1, '']);
  const rows = parse<Record<string, string>>(await readFile(planned.at('misses.csv')), {
    columns: true,
  });
  expect(rows.map(({ zone }) => zone)).toEqual(['3']);
  const after = await planned.state();
  expect(Object.keys(after).sort()).toEqual([...Object.keys(before), 'misses.csv'].sort());
  expect(after).toMatchObject(before);
});
