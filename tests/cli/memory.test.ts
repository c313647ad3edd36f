/** `keepset memory`, as a person runs it: what it says of a reel, where it writes it, what it refuses. */
import { mkdir, readFile } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import { describe, expect } from 'vitest';
import { cutCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { askedIn, memoryIn, remark, rigCues, rigTemplate, test } from './memory-rig.ts';

const csv = ['--format', 'csv'];

describe('the reel', () => {
  test('0: all fits; figures by hand, cue by cue', async ({ rig }) => {
    const before = await rig.state();
    const { code, memory } = await askedIn(rig);
    expect(code).toBe(0);
    expect(memory.cues.map(({ id, bytes, load, mayGo }) => [id, bytes, load, mayGo])).toEqual([
      ['1m1', 600, 600, 0],
      ['1m2', 1600, 1600, 600],
      ['1m3 v2', 1200, 1200, 1600],
    ]);
    expect(memory.machines).toMatchObject([
      { id: 'a', bytes: 3000, budget: 4000, fits: true, over: 0, peak: { cue: '1m2' } },
      { id: 'b', bytes: 0, budget: 8000, fits: true, peak: { bytes: 0 } },
    ]);
    expect(memory.total).toMatchObject({ bytes: 3000, full: 3000, peak: { bytes: 1600 } });
    expect(memory).toMatchObject({ groups: null, cue: null, placement: null, comparison: null });
    expect(await rig.state()).toEqual(before);
  });

  test('the table: the answer in its first line, stderr has no warning', async ({ rig }) => {
    const { code, stdout, stderr } = await memoryIn(rig);
    expect([code, stderr]).toEqual([0, remark]);
    expect(stdout).toMatch(/^The reel of 3 cues needs 2\.93 KiB .*\nMachine a fits: /u);
    for (const id of ['1m1', '1m2', '1m3 v2']) expect(stdout).toMatch(new RegExp(`^${id} `, 'mu'));
  });

  test('--by instrument: the same answer, a row for each instrument', async ({ rig }) => {
    const [machines, instruments] = await Promise.all([
      memoryIn(rig),
      memoryIn(rig, '--by', 'instrument'),
    ]);
    expect(instruments.code).toBe(0);
    const answer = machines.stdout.split('\n', 2).join('\n');
    expect(instruments.stdout.split('\n', 2).join('\n')).toBe(answer);
    expect(instruments.stdout).toMatch(/^keys .* 600/mu);
    expect(machines.stdout).not.toMatch(/^keys /mu);
    expectError(await memoryIn(rig, '--by', 'track'), 'usage');
  });

  test('a bank without a template, and one budget without a machine', async ({ score }) => {
    const bank = ['cues', '-i', 'bank.sf2'];
    const open = await askedIn(score, ...bank);
    expect([open.code, open.memory.total.bytes]).toEqual([0, 600]);
    expect(open.memory.machines).toMatchObject([{ budget: null, fits: null, bytes: 600 }]);
    const enough = await askedIn(score, ...bank, '--budget', '600 B');
    expect([enough.code, enough.memory.machines[0]!.fits]).toEqual([0, true]);
    const short = await askedIn(score, ...bank, '--budget', '599 B');
    expect([short.code, short.memory.machines[0]!.over]).toEqual([1, 1]);
  });

  test('figures from usage files are those from cues', async ({ rig }) => {
    const usage = ['usage', 'cues', '--template', 'keepset.yaml', '--format', 'json'];
    const written = await keepset([...usage, '-o', 'usage.json'], { cwd: rig.path });
    expect(written).toEqual({ code: 0, stdout: '', stderr: '' });
    const whole = await memoryIn(rig, '--format', 'json');
    expect(await memoryIn(rig, '--usage', 'usage.json', '--format', 'json')).toEqual(whole);
    const bars = await memoryIn(rig, '--usage', 'usage.json', '--cue', '1m1');
    expect(bars).toMatchObject({ code: 2, stdout: '' });
    expectError(bars, 'usage');
  });

  test('the same bytes every time, and from another folder', async ({ rig }) => {
    await mkdir(rig.at('elsewhere/deep'), { recursive: true });
    for (const format of ['table', 'json', 'csv']) {
      const questions = format === 'csv' ? [] : ['--groups', '--place', '--cue', '1m3'];
      const args = [...questions, '--format', format];
      const first = await memoryIn(rig, ...args);
      expect(first).toMatchObject({ code: 0, stderr: format === 'json' ? '' : remark });
      expect(await memoryIn(rig, ...args)).toEqual(first);
      const away = ['memory', '--template', '../../keepset.yaml', ...args];
      const seen = await keepset(away, { cwd: rig.at('elsewhere/deep') });
      // Only where a finding stands is told as seen from there.
      const there = seen.stdout.replaceAll('"../../keepset.yaml"', '"keepset.yaml"');
      expect({ ...seen, stdout: there }).toEqual(first);
    }
  });
});

describe('--budget', () => {
  test('1: over budget, by how much, and what would make room', async ({ rig }) => {
    const { code, memory } = await askedIn(rig, '--budget', 'a=2400 B');
    expect(code).toBe(1);
    expect(memory.settings.budgets).toEqual({ a: 2400 });
    expect(memory.machines[0]).toMatchObject({ fits: false, over: 600, budget: 2400 });
    const moves = memory.machines[0]!.ways.filter(({ kind }) => kind === 'move');
    expect(moves.map(({ bytes, fits }) => [bytes, fits])).toEqual([
      [600, true],
      [2400, true],
    ]);
    expect(memory.findings.map((one) => one.code)).toContain('memory-over-budget');
    const table = await memoryIn(rig, '--budget', 'a=2400 B');
    expect(table.code).toBe(1);
    expect(table.stdout).toMatch(/^! Machine a DOES NOT FIT: .* 600 B too much\.$/mu);
    expect(table.stderr).toContain('warning[memory-over-budget]');
    expect(await memoryIn(rig, '--budget', 'a=3000 B')).toMatchObject({ code: 0 });
  });

  test('2 with --strict: the warning comes first', async ({ rig }) => {
    const strict = await memoryIn(rig, '--budget', 'a=2400 B', '--strict');
    expect(strict.code).toBe(2);
  });

  test.for([
    { budget: 'aa=8GiB', says: 'No machine is called "aa"' },
    { budget: '8GiB', says: 'There are a, b.' },
    { budget: 'a=', says: 'a machine and a size' },
    { budget: 'a=0', says: 'a machine and a size' },
    { budget: 'a=-1GiB', says: 'a machine and a size' },
    { budget: 'a=lots', says: 'a machine and a size' },
    { budget: '', says: 'a machine and a size' },
  ])('refused: $budget', async ({ budget, says }, { rig }) => {
    const result = await memoryIn(rig, '--budget', budget);
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toContain(says);
  });
});

describe('--keep', () => {
  const planned = async (rig: { readonly path: string }): Promise<void> => {
    const made = await keepset(['plan', '-o', 'keep.json'], { cwd: rig.path });
    expect(made.code).toBe(0);
  };

  test('the figures are those of its cues', async ({ rig }) => {
    await planned(rig);
    const [named, kept] = [await askedIn(rig), await askedIn(rig, '--keep', 'keep.json')];
    expect(kept.code).toBe(0);
    expect(kept.memory.keep?.sha256).toMatch(/^[0-9a-f]{64}$/u);
    expect({ ...kept.memory, keep: null }).toEqual(named.memory);
    const rests = await askedIn(rig, '--keep', 'keep.json', '--cue', '1m1');
    expect(rests.memory.cue?.id).toBe('1m1');
  });

  test('cues that come later do not count', async ({ rig }) => {
    await planned(rig);
    await rig.write({ 'cues/1m4.mid': rigCues['cues/1m2.mid'] });
    const kept = await askedIn(rig, '--keep', 'keep.json');
    expect(kept.memory.cues.map(({ id }) => id)).toEqual(['1m1', '1m2', '1m3 v2']);
    expect((await askedIn(rig)).memory.cues).toHaveLength(4);
  });

  test.for([
    {
      what: 'a changed cue',
      change: { 'cues/1m1.mid': rigCues['cues/1m2.mid'] },
      code: 'memory-cue-changed',
      where: 'cues/1m1.mid',
    },
    {
      what: 'a changed template',
      change: { 'keepset.yaml': rigTemplate('5000 B') },
      code: 'memory-template-changed',
      where: 'keepset.yaml',
    },
    {
      what: 'what is no keep file',
      change: { 'keep.json': '{}' },
      code: 'keep-file-schema',
      where: 'keep.json',
    },
  ])('refused: $what', async ({ change, code, where }, { rig }) => {
    await planned(rig);
    await rig.write(change);
    const result = await memoryIn(rig, '--keep', 'keep.json');
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, code, where);
  });

  test.for([['cues'], ['--settle', 'order=plain'], ['--pin', 'keys'], ['--without', '1m1']])(
    'refused: beside %j',
    async (more, { rig }) => {
      await planned(rig);
      const result = await memoryIn(rig, '--keep', 'keep.json', ...more);
      expect(result).toMatchObject({ code: 2, stdout: '' });
      expectError(result, 'usage');
      expect(result.stderr).toContain(more[0]);
    },
  );
});

describe('CSV', () => {
  test('a row for each instrument of each cue, as in the JSON', async ({ rig }) => {
    const { stdout, stderr } = await memoryIn(rig, ...csv);
    expect(stderr).toBe(remark);
    expect(stdout).toMatch(
      /^cue,machine,instrument,bytes,low,high,basis,load,may-go,zones,fits\r\n/u,
    );
    const rows: readonly Readonly<Record<string, string>>[] = parse(stdout, {
      columns: true,
      record_delimiter: '\r\n',
    });
    expect(rows.map((row) => [row['cue'], row['instrument'], row['bytes'], row['zones']])).toEqual([
      ['1m1', 'keys', '600', '2'],
      // What goes as a whole has a row as well.
      ['1m2', 'keys', '0', '0'],
      ['1m2', 'strings', '1600', '1'],
      ['1m3 v2', 'keys', '400', '1'],
      ['1m3 v2', 'strings', '800', '1'],
    ]);
    const { memory } = await askedIn(rig);
    for (const cue of memory.cues) {
      const own = rows.filter((row) => row['cue'] === cue.id);
      const sum = (column: string): number =>
        own.reduce((all, row) => all + Number(row[column]), 0);
      // No sample is held in common here, so rows add up.
      expect([sum('bytes'), sum('high')]).toEqual([cue.bytes, cue.high]);
      expect([sum('load'), sum('may-go')]).toEqual([cue.load, cue.mayGo]);
    }
    expect(new Set(rows.map((row) => row['fits']))).toEqual(new Set(['yes']));
    const over = await memoryIn(rig, ...csv, '--budget', 'a=1000 B', '-q');
    expect(over.code).toBe(1);
    expect(over.stdout).toMatch(/^1m1,.*,yes\r\n1m2,.*,no\r\n1m2,.*,no\r\n/mu);
  });
});

describe('-o', () => {
  test.for(['table', 'json', 'csv'])('%s: what stdout would get', async (format, { rig }) => {
    const args = ['--format', format];
    const shown = await memoryIn(rig, ...args);
    const written = await memoryIn(rig, ...args, '-o', 'memory.out');
    expect(written).toMatchObject({ code: 0, stdout: '' });
    expect(written.stderr).toBe(format === 'json' ? '' : `${remark}wrote memory.out\n`);
    expect(await readFile(rig.at('memory.out'), 'utf8')).toBe(shown.stdout);
    expect(await memoryIn(rig, ...args, '-o', '-')).toEqual(shown);
  });

  test('an older one of its own gives way, as JSON and as CSV', async ({ rig }) => {
    for (const format of ['json', 'csv']) {
      const args = ['--format', format, '-o', `memory.${format}`];
      await memoryIn(rig, ...args);
      const old = await readFile(rig.at(`memory.${format}`), 'utf8');
      expect(await memoryIn(rig, ...args, '--without', '1m2')).toMatchObject({ code: 0 });
      expect(await readFile(rig.at(`memory.${format}`), 'utf8')).not.toBe(old);
    }
  });

  test('the exit code is that of the result', async ({ rig }) => {
    const over = await memoryIn(rig, '--budget', 'a=1 KiB', '--format', 'json', '-o', 'm.json');
    expect([over.code, over.stdout]).toEqual([1, '']);
    expect(Object.keys(await rig.state())).toContain('m.json');
  });

  test.for([
    { out: 'bank.sf2', more: [], code: 'output-exists' },
    { out: 'bank.sf2', more: ['cues', '-i', 'bank.sf2'], code: 'output-unwritable' },
    { out: 'keepset.yaml', more: [], code: 'output-unwritable' },
    { out: 'cues/1m1.mid', more: ['cues'], code: 'output-unwritable' },
    { out: 'cues/1m1.mid', more: [], code: 'output-exists' },
    { out: 'keep.json', more: ['--keep', 'keep.json'], code: 'output-unwritable' },
    { out: 'keep.json', more: [], code: 'output-exists' },
    { out: 'shown.csv', more: ['--compare', 'shown.csv'], code: 'output-unwritable' },
    { out: 'notes.txt', more: [], code: 'output-exists' },
    { out: 'no/memory.json', more: [], code: 'output-unwritable' },
  ])('refused: $out with $more', async ({ out, more, code }, { rig }) => {
    await keepset(['plan', '-o', 'keep.json'], { cwd: rig.path });
    await rig.write({ 'notes.txt': 'mine', 'shown.csv': 'instrument,loaded\nkeys,600 B\n' });
    const before = await rig.state();
    const result = await memoryIn(rig, ...more, '-o', out);
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, code, out);
    expect(await rig.state()).toEqual(before);
  });
});

describe('cues that are not whole', () => {
  test('a damaged one counts, is marked, and does not stop', async ({ rig }) => {
    await rig.write({ 'cues/1m4.mid': cutCue() });
    const { code, memory } = await askedIn(rig);
    expect(code).toBe(0);
    expect(memory.cues.at(-1)).toMatchObject({ id: '1m4', state: 'damaged' });
    const { stdout, stderr } = await memoryIn(rig);
    expect(stdout).toContain('! Damaged: 1m4.');
    expect(stderr).toContain('warning[cue-damaged]');
    expect(await memoryIn(rig, '--strict')).toMatchObject({ code: 2 });
  });

  test('2: an unreadable one needs all that there is, as far as anyone knows', async ({ rig }) => {
    await rig.write({ 'cues/1m4.mid': 'no cue' });
    const result = await memoryIn(rig);
    expect(result.code).toBe(2);
    expect(result.stdout).toMatch(/! Not readable: 1m4\. .* all that there is counts as needed\./u);
    expect(result.stdout).toMatch(/^1m4 .* 3 000 /mu);
    const plan = await keepset(['plan'], { cwd: rig.path });
    const errors = (text: string): string => text.split('\n').slice(0, 3).join('\n');
    expect(errors(result.stderr)).toBe(errors(plan.stderr));
    expectError(result, 'midi-not-a-midi-file', 'cues/1m4.mid (byte 0x0)');
  });

  test('2: no cues, no template', async ({ folder }) => {
    const result = await memoryIn(folder);
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expect(result.stderr).toMatch(/^error\[/u);
  });
});
