import { describe, expect } from 'vitest';
import { cutCue, doubtfulCue, plainCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

const plan = ['plan', 'cues', '-i', 'bank.sf2'];

describe('--quiet and --verbose', () => {
  test('warnings, unless quiet; notes when asked', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': cutCue() });
    await score.write({ 'cues/1m3 v1.mid': plainCue(), 'cues/1m3 v2.mid': plainCue() });
    const usual = await keepset(plan, { cwd: score.path });
    const quiet = await keepset([...plan, '--quiet'], { cwd: score.path });
    const verbose = await keepset([...plan, '--verbose'], { cwd: score.path });
    expect(usual.stderr).toContain('warning[cue-damaged]');
    expect(usual.stderr).not.toContain('note[');
    expect(usual.stderr).toMatch(/^2 more remarks with --verbose$/m);
    expect(quiet.stderr).toBe('');
    expect(verbose.stderr).toContain('warning[cue-damaged]');
    expect(verbose.stderr).toContain('note[cue-versions]');
    expect(verbose.stderr).toMatch(/^planned in \d+\.\d\d s$/m);
    for (const { code, stdout } of [quiet, verbose]) {
      expect({ code, stdout }).toEqual({ code: 0, stdout: usual.stdout });
    }
  });

  test('failures are said even when quiet, the gravest first', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': cutCue(), 'cues/1m3.mid': 'not a cue' });
    const quiet = await keepset([...plan, '-q'], { cwd: score.path });
    expect(quiet.code).toBe(2);
    expectError(quiet, 'midi-not-a-midi-file', 'cues/1m3.mid (byte 0x0)');
    expect(quiet.stderr).not.toContain('warning[');
    const usual = await keepset(plan, { cwd: score.path });
    expect(usual.stderr).toMatch(/^error\[/);
    expect(usual.stderr).toMatch(/^warning\[/m);
  });

  test('a quiet keep file is written without a word', async ({ score }) => {
    const args = [...plan, '-q', '-o', 'keep.json'];
    expect(await keepset(args, { cwd: score.path })).toMatchObject({ code: 0, stderr: '' });
    expect(Object.keys(await score.state())).toContain('keep.json');
  });
});

describe('--settle', () => {
  const json = async (cwd: string, ...more: readonly string[]) => {
    const { code, stdout } = await keepset([...plan, '--format', 'json', ...more], { cwd });
    expect(code).toBe(0);
    return document(stdout, 'plan@1');
  };

  // Zone 1 (400 B) is program 0 at E4 and zone 3 (1 600 B) program 48: the note is on the tick of the
  // switch and before it in the file.
  test('open, plain and accepted', async ({ folder, score }) => {
    await folder.write({ 'cues/1m1.mid': doubtfulCue() });
    const open = await json(score.path);
    expect(open.total.bytes.kept).toBe(2000);
    expect(open.doubts).toEqual([{ name: 'order', settled: null, zones: 1, bytes: 1600 }]);

    const plainly = await json(score.path, '--settle', 'order=plain');
    expect(plainly.total.bytes.kept).toBe(400);
    expect(plainly.settings.settle).toEqual({ order: 'plain' });
    expect(plainly.instruments[0]?.kept.map(({ zone }) => zone)).toEqual([1]);

    const accepted = await json(score.path, '--settle=order=accept', '--settle', 'engine=plain');
    expect(accepted.total.bytes.kept).toBe(2000);
    expect(accepted.settings.settle).toEqual({ order: 'accept', engine: 'plain' });
    expect(accepted.doubts).toMatchObject([{ name: 'order', settled: 'accept', zones: 1 }]);
  });

  test.for([
    { value: 'odrer=plain', says: 'no doubt of that name' },
    { value: 'order', says: 'order=plain or order=accept' },
    { value: 'order=no', says: 'order=plain or order=accept' },
    { value: 'order=plain=plain', says: 'order=plain or order=accept' },
    { value: 'damage=plain', says: 'Damage can not be settled' },
    { value: '', says: 'no doubt of that name' },
  ])('$value is refused', async ({ value, says }, { score }) => {
    const result = await keepset([...plan, '--settle', value], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toContain(says);
  });
});

describe('--without', () => {
  test('leaves cues out, by id, and says so', async ({ score }) => {
    await score.write({ 'cues/1m2 Harbour v3.mid': plainCue(), 'cues/2m1.mid': plainCue() });
    const args = ['--without', '1m2 v3', '--without=2m1'];
    const usage = await keepset(['usage', 'cues', ...args, '--format', 'json'], {
      cwd: score.path,
    });
    expect(document(usage.stdout, 'usage@1').cues.map(({ id }) => id)).toEqual(['1m1']);
    const table = await keepset([...plan, ...args], { cwd: score.path });
    expect(table.stdout).toContain('! Left out on request: 1m2 v3, 2m1.');
  });

  test('an unknown id: the ids that there are', async ({ score }) => {
    const result = await keepset([...plan, '--without', '1m2'], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toBe(
      'error[usage]: No cue is called "1m2".\n  hint: The cues are 1m1.\n',
    );
  });

  test('all of them', async ({ score }) => {
    const result = await keepset(['usage', 'cues', '--without', '1m1'], { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
  });
});

test('--instrument FILE#bank:program takes one preset', async ({ score }) => {
  const args = ['plan', 'cues', '-i', 'bank.sf2#0:48', '--format', 'json'];
  const { stdout } = await keepset(args, { cwd: score.path });
  const { instruments, findings } = document(stdout, 'plan@1');
  expect(instruments).toMatchObject([{ source: 'bank.sf2#0:48', zones: 2, zonesKept: 2 }]);
  expect(findings.map(({ code }) => code)).toContain('programs-ignored');
});
