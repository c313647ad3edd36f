/** What `keepset memory` can be asked beside its figures: groups, one cue, readings, other machines. */
import { readFile, writeFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { expectError } from './keepset.ts';
import { askedIn, memoryIn, rigTemplate, test } from './memory-rig.ts';

describe('names and answers that have no place', () => {
  test('a machine may be called as anything', async ({ rig }) => {
    const template = await readFile(rig.at('keepset.yaml'), 'utf8');
    const named = template.replace('  b:', '  constructor:');
    await writeFile(rig.at('keepset.yaml'), named);
    const { code, memory } = await askedIn(rig, '--budget', 'a=3000 B');
    expect([code, memory.machines.map(({ id, fits }) => [id, fits])]).toEqual([
      0,
      [
        ['a', true],
        ['constructor', true],
      ],
    ]);
  });

  test.for([
    ['--groups'],
    ['--order', '1m1'],
    ['--place'],
    ['--cue', '1m1'],
    ['--compare', 'x.csv'],
  ])('%s is not answered by CSV', async (asked, { rig }) => {
    const result = await memoryIn(rig, ...asked, '--format', 'csv');
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toContain(asked[0]!);
  });
});

describe('--groups and --order', () => {
  // By hand, see the rig: 1m1 and 1m2 together take 2200 bytes, 1m2 and 1m3 2800, all 3000.
  const small = ['--budget', 'a=2400 B'];

  test('0: each group fits where the reel does not', async ({ rig }) => {
    const { code, memory } = await askedIn(rig, ...small, '--groups');
    expect([code, memory.settings.inGroups]).toEqual([0, true]);
    expect(memory.machines[0]!.fits).toBe(false);
    const { groups, ...rest } = memory.groups!;
    // The low string comes in between: 800 bytes at 400 a second.
    expect(rest).toEqual({ load: 800, seconds: 2, alone: [] });
    expect(groups.map(({ cues, bytes, load, mayGo }) => [cues, bytes, load, mayGo])).toEqual([
      [['1m1', '1m2'], 2200, 2200, 0],
      [['1m3 v2'], 1200, 800, 1800],
    ]);
    const table = await memoryIn(rig, ...small, '--groups');
    expect(table.code).toBe(0);
    expect(table.stdout).toContain(
      'The reel can be loaded in 2 groups: 800 B to load at the change',
    );
    expect(table.stdout).not.toContain('DOES NOT FIT');
    expect(table.stderr).not.toContain('warning[');
    // Not asked for, they are a way out of what does not fit.
    const plain = await memoryIn(rig, ...small);
    expect(plain.code).toBe(1);
    expect(plain.stdout).toMatch(/DOES NOT FIT[^]*The reel can be loaded in 2 groups/u);
  });

  test('another order: other groups; numbers do for ids', async ({ rig }) => {
    const { code, memory } = await askedIn(rig, ...small, '--order', '1m2, 1m3,1m1');
    expect(code).toBe(0);
    expect(memory.settings).toMatchObject({ order: ['1m2', '1m3 v2', '1m1'], inGroups: true });
    expect(memory.cues.map(({ id, load }) => [id, load])).toEqual([
      ['1m2', 1600],
      ['1m3 v2', 1200],
      ['1m1', 200],
    ]);
    // 1m3 and 1m1 together: keys 600, strings 800. Loading 1m2 alone first leaves all of it to load.
    expect(memory.groups).toMatchObject({
      groups: [{ cues: ['1m2'] }, { cues: ['1m3 v2', '1m1'], bytes: 1400 }],
      load: 1400,
      seconds: 3.5,
    });
  });

  test('1: a cue does not fit even alone', async ({ rig }) => {
    const { code, memory } = await askedIn(rig, '--budget', 'a=1500 B', '--groups');
    expect(code).toBe(1);
    expect(memory.groups!.alone).toEqual([{ cue: '1m2', machine: 'a', missing: 100 }]);
    expect(memory.findings.map((one) => one.code)).toContain('memory-cue-alone');
    const table = await memoryIn(rig, '--budget', 'a=1500 B', '--groups');
    expect(table.code).toBe(1);
    expect(table.stdout).toContain('! Not even in groups: 1m2 does not fit alone.');
    expect(table.stdout).toContain('! 1m2 does not fit even alone: 100 B missing on machine a.');
    expect(table.stderr).toContain('warning[memory-cue-alone]');
  });

  test('of a cue that is the only one, no group is spoken of', async ({ rig }) => {
    const { code, stdout } = await memoryIn(rig, 'cues/1m2.mid', '--budget', 'a=1500 B');
    expect(code).toBe(1);
    expect(stdout).toContain('! Machine a DOES NOT FIT:');
    expect(stdout).not.toContain('can be loaded at once');
    expect(stdout).not.toContain('groups below');
  });

  test('every cue too large alone: no rest is spoken of', async ({ rig }) => {
    const { code, stdout } = await memoryIn(rig, '--budget', 'a=500 B', '--groups');
    expect(code).toBe(1);
    expect(stdout).toContain('Not even in groups: 1m1, 1m2, 1m3 v2 do not fit alone.');
    expect(stdout).not.toContain('0 groups');
  });

  test('one group where all fits', async ({ rig }) => {
    const { code, memory } = await askedIn(rig, '--groups');
    expect(code).toBe(0);
    expect(memory.groups!.groups.map(({ cues }) => cues)).toEqual([['1m1', '1m2', '1m3 v2']]);
    expect(memory.groups).toMatchObject({ load: 0, seconds: 0 });
  });

  test.for([
    { order: '1m1,1m2', says: 'leaves out 1m3 v2' },
    { order: '1m1,1m2,1m3,1m3 v2', says: 'names "1m3 v2" twice' },
    { order: '1m1,1m2,1m3,1m33', says: 'No cue is called "1m33".' },
    { order: ',', says: 'The order names no cue.' },
  ])('refused: --order $order', async ({ order, says }, { rig }) => {
    const result = await memoryIn(rig, '--order', order);
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toContain(says);
  });
});

describe('--cue', () => {
  test('by id, by number without its version: when its instruments play', async ({ rig }) => {
    const byNumber = await askedIn(rig, '--cue', '1m3');
    expect(byNumber.code).toBe(0);
    expect(byNumber.memory.cue).toMatchObject({
      id: '1m3 v2',
      start: { bar: 1, beat: 1, seconds: 0 },
      instruments: [
        { id: 'strings', machine: 'a', bytes: 800, loadSeconds: 2, notes: 1 },
        { id: 'keys', machine: 'a', bytes: 400, loadSeconds: 1, notes: 1 },
      ],
    });
    const byId = await askedIn(rig, '--cue', '1m3 v2');
    expect(byId.memory).toEqual(byNumber.memory);
    const { stdout } = await memoryIn(rig, '--cue', '1m3');
    expect(stdout).toMatch(/^Cue 1m3 v2 needs 1\.17 KiB \(/mu);
    expect(stdout).toMatch(/^strings .*\n^keys /mu);
    expect(stdout).not.toContain('All machines');
  });

  test('what is pinned and not played there is named', async ({ rig }) => {
    const { stdout } = await memoryIn(rig, '--cue', '1m1', '--pin', 'strings');
    expect(stdout).toContain('Needed, and not played here: strings 2.34 KiB.');
  });

  test('refused: a cue that is not there, with what may be meant', async ({ rig }) => {
    const result = await memoryIn(rig, '--cue', '1m22');
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'usage');
    expect(result.stderr).toContain('hint: Did you mean "1m2"?');
  });

  test('refused: a number of two versions', async ({ rig }) => {
    await rig.write({ 'cues/1m3 v3.mid': await readFile(rig.at('cues/1m1.mid')) });
    const result = await memoryIn(rig, '--cue', '1m3');
    expectError(result, 'usage');
    expect(result.stderr).toContain('Write which one: 1m3 v2, 1m3 v3.');
    expect(await memoryIn(rig, '--cue', '1m3', '--newest')).toMatchObject({ code: 0 });
  });
});

describe('--compare', () => {
  const shown = async (rig: { write: (f: Record<string, string>) => Promise<void> }, csv: string) =>
    rig.write({ 'shown.csv': csv });

  test('readings beside estimates, and what to write into the player', async ({ rig }) => {
    await shown(rig, 'Instrument;Loaded\nkeys;660 B\nstrings;2640 B\n');
    const { code, memory } = await askedIn(rig, '--compare', 'shown.csv');
    expect(code).toBe(0);
    const { rows, players, file } = memory.comparison!;
    expect(file).toBe('shown.csv');
    // Both show a tenth more than the 600 and 2400 bytes of their samples.
    expect(rows.map((one) => [one.instrument, one.shown, one.estimate.bytes, one.error])).toEqual([
      ['keys', 660, 600, 60],
      ['strings', 2640, 2400, 240],
    ]);
    expect(rows.map(({ refitted }) => refitted)).toEqual([660, 2640]);
    expect(players).toMatchObject([
      { id: 'p', readings: 2, worstBefore: 240, worstAfter: 0, keys: { factor: 1.1 } },
    ]);
    const { stdout } = await memoryIn(rig, '--compare', 'shown.csv');
    const lines = /^per-copy: .*\nper-zone: .*\nfactor: .*$/mu.exec(stdout)?.[0];
    expect(lines).toBeDefined();
    // The keys go into the player as they stand, and then estimates are what was read.
    const template = await readFile(rig.at('keepset.yaml'), 'utf8');
    await writeFile(
      rig.at('keepset.yaml'),
      template.replace('400 B/s }', `400 B/s, ${lines!.replaceAll('\n', ', ')} }`),
    );
    const again = await askedIn(rig, '--compare', 'shown.csv');
    expect(again.memory.comparison!.rows.map(({ error }) => error)).toEqual([0, 0]);
    expect(again.memory.total.bytes).toBe(3300);
  });

  test('faults of the table, each with its line and column', async ({ rig }) => {
    await shown(rig, 'instrument,loaded\nkeyes,1 KiB\nkeys,much\nstrings,1 KiB\nstrings,2 KiB\n');
    const result = await memoryIn(rig, '--compare', 'shown.csv');
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'loaded-instrument', 'shown.csv:2:1');
    expectError(result, 'loaded-amount', 'shown.csv:3:6');
    expectError(result, 'loaded-twice', 'shown.csv:5:1');
    expect(result.stderr).toContain('Did you mean "keys"?');
  });

  test.for([
    { what: 'nothing there', csv: null, code: 'path-missing', where: 'shown.csv' },
    { what: 'an empty file', csv: '', code: 'loaded-empty', where: 'shown.csv' },
    {
      what: 'no heading',
      csv: 'keys,600 B\n',
      code: 'loaded-column-missing',
      where: 'shown.csv:1:1',
    },
    {
      what: 'a long row',
      csv: 'instrument,loaded\nkeys,1,2 KiB\n',
      code: 'loaded-row-long',
      where: 'shown.csv:2:8',
    },
    {
      what: 'an open quotation',
      csv: 'instrument,loaded\n"keys,1 KiB\n',
      code: 'loaded-unreadable',
      where: 'shown.csv:2:1',
    },
  ])('refused: $what', async ({ csv, code, where }, { rig }) => {
    if (csv !== null) await shown(rig, csv);
    const result = await memoryIn(rig, '--compare', 'shown.csv');
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, code, where);
  });

  test('a warning where a reading is far off, and 2 with --strict', async ({ rig }) => {
    await shown(rig, 'instrument,loaded\nkeys,6 MiB\n');
    const result = await memoryIn(rig, '--compare', 'shown.csv');
    expect(result.code).toBe(0);
    expect(result.stderr).toMatch(/^warning\[loaded-far-off\]: .*\n {2}--> shown\.csv:2:1$/mu);
    expect(await memoryIn(rig, '--compare', 'shown.csv', '--strict')).toMatchObject({ code: 2 });
  });
});

describe('--place', () => {
  test('nothing has to move', async ({ rig }) => {
    const { code, memory } = await askedIn(rig, '--place');
    expect(code).toBe(0);
    expect(memory.placement).toMatchObject({ state: 'fits', moves: [], bytes: 0, lines: [] });
  });

  // Of a's 3000 bytes 600 have to go: those of the keys are just enough, the strings would be more.
  test('1: the least that moves; with the lines in the template 0', async ({ rig }) => {
    await rig.write({ 'keepset.yaml': rigTemplate('2400 B') });
    const { code, memory } = await askedIn(rig, '--place');
    expect(code).toBe(1);
    const { state, moves, bytes, gap, machines, lines } = memory.placement!;
    expect({ state, moves, bytes, gap }).toEqual({
      state: 'placed',
      moves: [{ instrument: 'keys', from: 'a', to: 'b', bytes: 600 }],
      bytes: 600,
      gap: 0,
    });
    expect(machines.map((one) => [one.id, one.bytes, one.fits])).toEqual([
      ['a', 2400, true],
      ['b', 600, true],
    ]);
    expect(lines).toHaveLength(1);
    const { stdout } = await memoryIn(rig, '--place');
    expect(stdout).toContain(lines[0]!.text);
    const template = (await readFile(rig.at('keepset.yaml'), 'utf8')).split('\n');
    for (const { line, text } of lines) template[line - 1] = text;
    await writeFile(rig.at('keepset.yaml'), template.join('\n'));
    const after = await askedIn(rig, '--place');
    expect(after.code).toBe(0);
    expect(after.memory.placement!.state).toBe('fits');
    expect(after.memory.machines.map((one) => one.bytes)).toEqual([2400, 600]);
  });

  test('1: no placement fits, and that is said', async ({ rig }) => {
    const budgets = ['--budget', 'a=2300 B', '--budget', 'b=500 B'];
    const { code, memory } = await askedIn(rig, '--place', ...budgets);
    expect(code).toBe(1);
    expect(memory.placement).toMatchObject({ state: 'impossible', moves: [], lines: [] });
    const { stdout } = await memoryIn(rig, '--place', ...budgets);
    expect(stdout).toContain('! No placement fits:');
  });
});
