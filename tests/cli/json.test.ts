import { describe, expect } from 'vitest';
import { bank, cutCue, doubtfulCue, plainCue } from '../jobs/small-score.ts';
import { keepset, spawnKeepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

const json = ['--format', 'json'];

describe('stdout is one document, stderr is empty', () => {
  test('usage', async ({ score }) => {
    const result = await keepset(['usage', 'cues', ...json], { cwd: score.path });
    expect(result).toMatchObject({ code: 0, stderr: '' });
    const { cues, findings } = document(result.stdout, 'usage@1');
    expect(cues).toMatchObject([{ id: '1m1', state: 'read', notes: 2 }]);
    expect(findings).toEqual([]);
  });

  test('plan', async ({ score }) => {
    const result = await keepset(['plan', 'cues', '-i', 'bank.sf2', ...json], { cwd: score.path });
    expect(result).toMatchObject({ code: 0, stderr: '' });
    const plan = document(result.stdout, 'plan@1');
    // By hand: frames x 2 bytes; program 0 plays both of its zones, program 48 neither.
    expect(plan.total).toEqual({
      bytes: { full: 3000, reached: 600, kept: 600, saved: 2400 },
      ...{ zones: 4, zonesKept: 2, samples: 4, samplesKept: 2 },
    });
    expect(plan.instruments[0]?.kept.map(({ zone, samples }) => [zone, ...samples])).toEqual([
      [0, '0:Keys low'],
      [1, '1:Keys high'],
    ]);
    expect(plan.instruments[0]?.dropped).toEqual([
      { zone: 2, key: null, samples: ['2:Strings low'], articulations: [1], bytes: 800 },
      { zone: 3, key: null, samples: ['3:Strings high'], articulations: [1], bytes: 1600 },
    ]);
  });

  test('with findings, a keep file and words for a person asked for', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': cutCue(), 'cues/1m3.mid': doubtfulCue() });
    const args = ['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json', ...json];
    const { code, stdout, stderr } = await keepset(args, { cwd: score.path });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { findings } = document(stdout, 'plan@1');
    expect(findings.map((one) => one.code)).toContain('cue-damaged');
  });

  test('with --verbose only the time is on stderr', async ({ score }) => {
    const args = ['plan', 'cues', '-i', 'bank.sf2', '--verbose', ...json];
    const { stdout, stderr } = await keepset(args, { cwd: score.path });
    document(stdout, 'plan@1');
    expect(stderr).toMatch(/^planned in \d+\.\d\d s\n$/);
  });

  test('a cue that can not be read and a keep file: the plan on stdout, the refusal on stderr', async ({
    score,
  }) => {
    await score.write({ 'cues/1m2.mid': 'not a cue' });
    const args = ['plan', 'cues', '-i', 'bank.sf2', '-o', 'keep.json', ...json];
    const { code, stdout, stderr } = await keepset(args, { cwd: score.path });
    expect(code).toBe(2);
    expect(document(stdout, 'plan@1').cues.map(({ state }) => state)).toEqual([
      'read',
      'unreadable',
    ]);
    expect(stderr).toMatch(/^error\[usage\]: No keep file was written/);
  });
});

describe('errors', () => {
  test.for([
    { args: ['usage', 'cues', '--foo', ...json], code: 'usage' },
    { args: ['usage', 'cues', '--foo', '--format=json'], code: 'usage' },
    { args: ['usage', 'cues', '--format', 'table', ...json, '--foo'], code: 'usage' },
    { args: ['pln', ...json], code: 'usage' },
    { args: ['plan', 'cues', ...json], code: 'usage' },
    { args: ['usage', 'nothing', ...json], code: 'path-missing' },
    { args: ['plan', 'cues', '-i', 'cues/1m1.mid', ...json], code: 'bank-not-a-soundfont' },
    { args: ['plan', 'cues', '-i', 'bank.sf2#0:9', ...json], code: 'preset-missing' },
    { args: ['plan', 'cues', '-i', 'bank.sf2', '-o', 'no/k', ...json], code: 'output-unwritable' },
  ])('$args', async ({ args, code }, { score }) => {
    const result = await keepset(args, { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stderr: '' });
    const { error } = document(result.stdout, 'error@1');
    expect(error.code).toBe(code);
    expect(error.hint).not.toBe('');
  });

  test('the message names the file', async ({ score }) => {
    const { stdout } = await keepset(['usage', 'no\nthing', ...json], { cwd: score.path });
    expect(document(stdout, 'error@1').error.message).toMatch(/^no\\x0athing: /);
  });

  test.for([
    ['usage', 'cues', ...json, '--format', 'table', '--foo'],
    ['usage', '--foo', '--', ...json],
  ])('%j: not asked for', async (args, { score }) => {
    const { stdout, stderr } = await keepset(args, { cwd: score.path });
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^error\[usage\]: /);
  });

  test('a fault of keepset, too', async ({ score }) => {
    const preload = 'data:text/javascript,performance.now=()=>{throw new Error("stopped")}';
    const args = ['plan', 'cues', '-i', 'bank.sf2', ...json];
    const result = await keepset(args, { cwd: score.path, preload });
    expect(result).toMatchObject({ code: 70, stderr: '' });
    expect(document(result.stdout, 'error@1').error.code).toBe('internal');
  });
});

test('demo lists its files', async ({ folder }) => {
  const { code, stdout, stderr } = await keepset(['demo', '--out', 'here', ...json], {
    cwd: folder.path,
  });
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  const { files } = JSON.parse(stdout) as { files: readonly string[] };
  expect(Object.keys(await folder.state()).sort()).toEqual(
    files.map((one) => `here/${one}`).sort(),
  );
});

describe('what is typed and what comes out', () => {
  test('nothing but what was typed leads to the machine', async ({ score }) => {
    const { stdout } = await keepset(['plan', './cues//', '-i', './bank.sf2', ...json], {
      cwd: score.path,
    });
    expect(document(stdout, 'plan@1').cues[0]?.files[0]?.path).toBe('cues/1m1.mid');
    expect(stdout).not.toContain(score.path);
    expect(stdout).not.toMatch(/"\//);
  });

  test('from another working folder the paths are as typed', async ({ folder }) => {
    await folder.write({
      'reel/1m1.mid': plainCue(),
      'banks/bank.sf2': bank(),
      'elsewhere/notes.txt': '',
    });
    const cwd = folder.at('elsewhere');
    const args = ['plan', '../reel', '-i', '../banks/bank.sf2', ...json];
    const plan = document((await keepset(args, { cwd })).stdout, 'plan@1');
    expect(plan.cues[0]?.files[0]?.path).toBe('../reel/1m1.mid');
    expect(plan.instruments[0]?.source).toBe('../banks/bank.sf2');
    expect(plan.settings.instrument).toBe('../banks/bank.sf2');
  });

  test('a full path stays one', async ({ score }) => {
    const args = ['usage', score.at('cues'), ...json];
    const { cues } = document((await keepset(args, { cwd: '/' })).stdout, 'usage@1');
    expect(cues[0]?.files[0]?.path).toBe(score.at('cues/1m1.mid'));
  });
});

describe('the same input gives the same bytes', () => {
  test.for([
    ['usage', 'cues'],
    ['usage', 'cues', ...json],
    ['plan', 'cues', '-i', 'bank.sf2'],
    ['plan', 'cues', '-i', 'bank.sf2', ...json],
    ['plan', 'cues', '-i', 'bank.sf2#0:0', '-o', '-'],
  ])('%j', async (args, { score }) => {
    await score.write({ 'cues/b/1m2.mid': cutCue(), 'cues/a/1m3.mid': doubtfulCue() });
    const first = await spawnKeepset(args, { cwd: score.path });
    const env = { LANG: 'tr_TR.UTF-8', TZ: 'Pacific/Kiritimati', LC_NUMERIC: 'de_DE.UTF-8' };
    expect(await spawnKeepset(args, { cwd: score.path, env })).toEqual(first);
    expect(first.code).toBe(0);
    expect(first.stdout).not.toBe('');
  });

  test('whatever the order of the arguments', async ({ score }) => {
    await score.write({ 'other/1m3.mid': doubtfulCue(), 'other/1m2.mid': plainCue() });
    const run = async (...cues: readonly string[]) =>
      (await keepset(['usage', ...cues, ...json], { cwd: score.path })).stdout;
    const forward = await run('cues', 'other');
    expect(await run('other', 'cues')).toBe(forward);
    expect(await run('other/1m3.mid', 'other', 'cues/*.mid', './cues')).toBe(forward);
  });
});
