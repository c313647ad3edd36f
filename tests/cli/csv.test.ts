import { parse } from 'csv-parse/sync';
import { describe, expect } from 'vitest';
import { cue, note, plainCue, program } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

const csv = ['--format', 'csv'];
const plan = ['plan', 'cues', '-i', 'bank.sf2'];

const rows = (text: string): readonly Readonly<Record<string, string>>[] =>
  parse(text, { columns: true, record_delimiter: '\r\n' });

describe('plan', () => {
  // By hand: program 0 plays E4 (its upper zone, 200 frames of 2 bytes) and C3 (its lower one, 100).
  test('a row for each zone on stdout, nothing on stderr', async ({ score }) => {
    const { code, stdout, stderr } = await keepset([...plan, ...csv], { cwd: score.path });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(
      rows(stdout).map((row) =>
        ['zone', 'state', 'notes', 'bytes', 'first-key'].map((c) => row[c]),
      ),
    ).toEqual([
      ['0', 'kept', '1', '200', '48'],
      ['1', 'kept', '1', '400', '64'],
      ['2', 'dropped', '', '800', ''],
      ['3', 'dropped', '', '1600', ''],
    ]);
    expect(stdout.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/u);
  });

  test('what it says is what the JSON says, and the keep file stays JSON', async ({ score }) => {
    const args = [...plan, '-o', 'keep.json', '--quiet', ...csv];
    const { stdout } = await keepset(args, { cwd: score.path });
    const json = await keepset([...plan, '--format', 'json'], { cwd: score.path });
    const { instruments } = document(json.stdout, 'plan@1');
    const zones = instruments.flatMap(({ kept, dropped }) => [...kept, ...dropped]);
    expect(rows(stdout).map((row) => Number(row['zone']))).toEqual(zones.map(({ zone }) => zone));
    expect(rows(stdout).map((row) => Number(row['bytes']))).toEqual(
      zones.map(({ bytes }) => bytes),
    );
    const kept = await keepset([...plan, '-o', '-', ...csv], { cwd: score.path });
    expect(kept.stdout).toBe(json.stdout);
  });

  test('findings go to stderr as with a table', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': plainCue().subarray(0, -13) });
    const table = await keepset(plan, { cwd: score.path });
    const result = await keepset([...plan, ...csv], { cwd: score.path });
    expect(result.stderr).toBe(table.stderr);
    expect(result.stderr).toContain('warning[cue-damaged]');
  });

  test('a name from a file is no formula', async ({ score }) => {
    const events = [program(0, 0), note(0, 64)];
    await score.write({ 'cues/1m1.mid': cue({ name: '=1+2,"\u001b', events }) });
    const { stdout } = await keepset([...plan, ...csv], { cwd: score.path });
    expect(stdout).toContain(`,"'=1+2,""\\x1b",`);
  });
});

describe('check', () => {
  const check = ['check', 'cues', '--keep', 'keep.json', '-i', 'bank.sf2'];

  test('a row for each zone that is missing', async ({ score }) => {
    await keepset([...plan, '-o', 'keep.json'], { cwd: score.path });
    const before = await keepset([...check, ...csv], { cwd: score.path });
    expect(before.code).toBe(0);
    expect(rows(before.stdout)).toEqual([]);
    expect(before.stdout).toMatch(/^instrument,.*\r\n$/u);

    // Now program 48 plays too: E4 is its upper zone, 800 frames of 2 bytes.
    const events = [program(0, 0), note(480, 64), program(1200, 48), note(1440, 64, 99)];
    await score.write({ 'cues/1m1.mid': cue({ name: 'Keys', events }) });
    const after = await keepset([...check, ...csv], { cwd: score.path });
    expect(after.code).toBe(1);
    expect(rows(after.stdout)).toMatchObject([
      {
        ...{ zone: '3', samples: '3:Strings high', silent: 'no', doubts: 'plain', notes: '1' },
        ...{ cues: '1m1: 1', keys: '64', velocities: '99', bytes: '1600', fits: '' },
        ...{ 'first-cue': '1m1', 'first-bar': '1', 'first-beat': '4', 'first-track-name': 'Keys' },
      },
    ]);
  });
});

describe('commands without rows for zones do not offer it', () => {
  test.for([
    ['usage', 'cues'],
    ['inspect', 'bank.sf2'],
    ['draft', 'cues'],
    ['demo', '--out', 'here'],
  ])('%j', async (args, { score }) => {
    const result = await keepset([...args, ...csv], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
  });
});
