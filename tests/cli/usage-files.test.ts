import { readFile } from 'node:fs/promises';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect } from 'vitest';
import { cutCue, doubtfulCue, plainCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { makePipe, hasPipes, test } from './material.ts';

const json = ['--format', 'json'];
const bank = ['-i', 'bank.sf2'];

const schema = async (): Promise<object> => {
  const path = new URL('../../src/report/schemas/zone-usage@1.json', import.meta.url);
  return JSON.parse(await readFile(path, 'utf8')) as object;
};

describe('keepset usage with instruments', () => {
  test('writes what its schema says, and plan makes the plan of one run of it', async ({
    score,
  }) => {
    await score.write({
      'cues/1m2.mid': cutCue(),
      'cues/1m3.mid': doubtfulCue(),
      'cues/1m4.mid': 'no cue',
    });
    const cwd = { cwd: score.path };
    const written = await keepset(['usage', 'cues', ...bank, ...json, '-o', 'all.json'], cwd);
    // A cue that can't be read is an error, and no reason to stop.
    expect(written).toEqual({ code: 2, stdout: '', stderr: '' });
    const text = await readFile(score.at('all.json'), 'utf8');
    const shown = await keepset(['usage', 'cues', ...bank, ...json], cwd);
    expect(shown.stdout).toBe(text);
    const validate = new Ajv2020({
      strict: true,
      strictTuples: false,
      allowUnionTypes: true,
    }).compile(await schema());
    validate(JSON.parse(text));
    expect(validate.errors).toBeNull();
    // A usage file that is there gives way to the next.
    await keepset(['usage', 'cues/1m1.mid', ...bank, ...json, '-o', 'one.json'], cwd);
    await keepset(['usage', 'cues/1m1.mid', ...bank, ...json, '-o', 'one.json'], cwd);
    const rest = ['cues/1m2.mid', 'cues/1m3.mid', 'cues/1m4.mid'];
    await keepset(['usage', ...rest, ...bank, ...json, '-o', 'rest.json'], cwd);
    const plan = await keepset(['plan', 'cues', ...bank, ...json], cwd);
    expect(plan.code).toBe(2);
    for (const files of [['all.json'], ['rest.json', 'one.json'], ['one.json', 'all.json']]) {
      const usage = files.flatMap((file) => ['--usage', file]);
      expect(await keepset(['plan', ...usage, ...bank, ...json], cwd)).toEqual(plan);
    }
  });

  test('is JSON; without instruments all is as before', async ({ score }) => {
    const cwd = { cwd: score.path };
    const table = await keepset(['usage', 'cues', ...bank], cwd);
    expect(table).toMatchObject({ code: 2, stdout: '' });
    expectError(table, 'usage');
    const idle = await keepset(['usage', 'cues', '--rare'], cwd);
    expect(idle.stderr).toContain('--rare means something only where instruments are played.');
    expectError(await keepset(['usage'], cwd), 'usage');
    const cues = await keepset(['usage', ...bank, ...json], cwd);
    expect(JSON.parse(cues.stdout)).toMatchObject({ error: { code: 'usage' } });
    await score.write({ 'keepset.yaml': 'not: [a template' });
    expect(await keepset(['usage', 'cues'], cwd)).toMatchObject({ code: 0, stderr: '' });
  });

  test('writes over nothing else', async ({ score }) => {
    const cwd = { cwd: score.path };
    await keepset(['plan', 'cues', ...bank, '-o', 'keep.json'], cwd);
    const before = await score.state();
    const refused = {
      'keep.json': 'output-exists',
      'bank.sf2': 'output-unwritable',
      'cues/1m1.mid': 'output-unwritable',
    } as const;
    for (const [out, code] of Object.entries(refused)) {
      const { stdout } = await keepset(['usage', 'cues', ...bank, ...json, '-o', out], cwd);
      expect(JSON.parse(stdout)).toMatchObject({ error: { code } });
    }
    expect(await score.state()).toEqual(before);
  });
});

describe('keepset plan --usage: bad input', () => {
  test('cut off, another kind, other instruments, not there, not a file', async ({ score }) => {
    const cwd = { cwd: score.path };
    await keepset(['usage', 'cues', ...bank, ...json, '-o', 'usage.json'], cwd);
    const text = await readFile(score.at('usage.json'), 'utf8');
    const notes = await keepset(['usage', 'cues', ...json], cwd);
    await score.write({
      'cut.json': text.slice(0, -100),
      'notes.json': notes.stdout,
      'edited.json': text.replace('"channel":0', '"channel":16'),
      'old.json': text.replace(/"bank": ?"[\da-f]{4}/, '"bank": "0000'),
      'folder/1m1.mid': plainCue(),
    });
    if (hasPipes) await makePipe(score.at('pipe.json'));
    const codes = {
      'cut.json': 'usage-file-json',
      'notes.json': 'usage-file-schema',
      'edited.json': 'usage-file-value',
      'old.json': 'usage-file-instrument',
      'bank.sf2': 'usage-file-json',
      folder: 'path-not-a-file',
      'none.json': 'path-missing',
      ...(hasPipes ? { 'pipe.json': 'path-not-a-file' } : {}),
    };
    for (const [file, code] of Object.entries(codes)) {
      const result = await keepset(['plan', '--usage', file, ...bank], cwd);
      expect(result).toMatchObject({ code: 2, stdout: '' });
      expectError(result, code, file);
    }
    const both = await keepset(['plan', 'cues', '--usage', 'usage.json', ...bank], cwd);
    expectError(both, 'usage');
  });
});
