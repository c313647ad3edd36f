import { readFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

const usage = ['usage', 'cues'];

describe('usage -o', () => {
  test('writes the JSON that stdout would get', async ({ score }) => {
    const json = await keepset([...usage, '--format', 'json'], { cwd: score.path });
    const args = [...usage, '--format', 'json', '-o', 'usage.json'];
    expect(await keepset(args, { cwd: score.path })).toEqual({ code: 0, stdout: '', stderr: '' });
    const written = await readFile(score.at('usage.json'), 'utf8');
    expect(written).toBe(json.stdout);
    document(written, 'usage@1');
    expect(await keepset(args, { cwd: score.path })).toMatchObject({ code: 0 });
  });

  test('writes the table uncut and without colours', async ({ score }) => {
    const args = [...usage, '-o', 'usage.txt', '--color', 'always'];
    const result = await keepset(args, { cwd: score.path });
    expect(result).toMatchObject({ code: 0, stdout: '' });
    const table = await keepset(usage, { cwd: score.path });
    expect(await readFile(score.at('usage.txt'), 'utf8')).toBe(table.stdout);
  });

  test('leaves a keep file, a text and the cues alone', async ({ score }) => {
    await keepset(['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json'], { cwd: score.path });
    await score.write({ 'notes.txt': 'mine' });
    const before = await score.state();
    const refused = { 'keep.json': 'output-exists', 'notes.txt': 'output-exists' } as const;
    for (const [out, code] of Object.entries(refused)) {
      const result = await keepset([...usage, '-o', out], { cwd: score.path });
      expectError(result, code, out);
    }
    const onCue = await keepset([...usage, '-o', 'cues/1m1.mid'], { cwd: score.path });
    expectError(onCue, 'output-unwritable', 'cues/1m1.mid');
    expect(await score.state()).toEqual(before);
  });
});
