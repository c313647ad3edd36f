import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import { writeBank } from '../oracle/soundfont-bytes.ts';
import {
  bank,
  bankPlan,
  cue,
  cutCue,
  doubtfulCue,
  note,
  plainCue,
  program,
} from './small-score.ts';

const planOf = (
  contents: Readonly<Record<string, Uint8Array | string>>,
  options: Partial<PlanOptions> = {},
) => {
  const files = new MemoryFiles({ 'bank.sf2': bank(), ...contents });
  return plan({ cues: ['cues'], instrument: 'bank.sf2', files, ...options });
};

const keptZones = (result: Awaited<ReturnType<typeof plan>>): readonly number[] =>
  result.instruments.flatMap(({ kept }) => kept.map(({ zone }) => zone));

test('keeps what the cues reach together', async () => {
  const low = cue({ name: 'Strings', events: [program(0, 48), note(480, 40)] });
  const high = cue({ name: 'Keys', events: [program(0, 0), note(480, 80)] });
  // Zones 0 and 1 are program 0 below and from middle C, 2 and 3 program 48.
  expect(keptZones(await planOf({ 'cues/1m1.mid': low }))).toEqual([2]);
  expect(keptZones(await planOf({ 'cues/1m1.mid': high }))).toEqual([1]);
  const both = await planOf({ 'cues/1m1.mid': low, 'cues/1m2.mid': high });
  expect(keptZones(both)).toEqual([1, 2]);
  expect(both.instruments[0]?.kept[0]).toMatchObject({
    ...{ reasons: ['played'], doubts: [[]], notes: 1, cues: { '1m2': 1 } },
    witnesses: [
      { cue: '1m2', trackName: 'Keys', tick: 480, bar: 1, beat: 2, key: 80, velocity: 80 },
    ],
  });
});

describe('one preset', () => {
  test('plays whatever the tracks ask for, and says how often that was', async () => {
    const asks = cue({ name: 'Keys', events: [program(0, 0), note(0, 40), program(480, 48)] });
    const quiet = cue({ name: 'Keys', events: [note(0, 41)] });
    const contents = { 'cues/1m1.mid': asks, 'cues/1m2.mid': quiet };
    const result = await planOf(contents, { instrument: 'bank.sf2#0:48' });
    expect(keptZones(result)).toEqual([2]);
    expect(result.instruments[0]).toMatchObject({ source: 'bank.sf2#0:48', zones: 2 });
    expect(result.findings).toContainEqual({
      ...{ code: 'programs-ignored', severity: 'note', file: 'cues/1m1.mid', at: null },
      args: { events: 2 },
    });
    expect(result.findings.filter(({ file }) => file === 'cues/1m2.mid')).toEqual([]);
  });

  test('a whole bank follows them, and says nothing', async () => {
    const { findings } = await planOf({ 'cues/1m1.mid': plainCue() });
    expect(findings).toEqual([]);
  });
});

describe('what can not be read is never unused', () => {
  test.each([
    ['damaged', cutCue()],
    ['unreadable', 'not a cue'],
  ])('%s', async (state, content) => {
    const result = await planOf({ 'cues/1m1.mid': plainCue(), 'cues/1m2.mid': content });
    expect(result.cues.map((one) => one.state)).toEqual(['read', state]);
    expect(keptZones(result)).toEqual([0, 1, 2, 3]);
    // Damage is answered cue by cue, never settled away.
    const settled = await planOf(
      { 'cues/1m1.mid': plainCue(), 'cues/1m2.mid': content },
      { without: ['1m2'] },
    );
    expect(keptZones(settled)).toEqual([0, 1]);
    expect(settled.settings.without).toEqual(['1m2']);
  });
});

test('settling a doubt as plain lets go what only it kept', async () => {
  const contents = { 'cues/1m1.mid': doubtfulCue() };
  expect(keptZones(await planOf(contents))).toEqual([1, 3]);
  expect(keptZones(await planOf(contents, { settle: { order: 'plain' } }))).toEqual([1]);
  expect(keptZones(await planOf(contents, { settle: { order: 'accept' } }))).toEqual([1, 3]);
  expect(keptZones(await planOf(contents, { settle: { engine: 'plain' } }))).toEqual([1, 3]);
});

test('the order of files and arguments changes nothing', async () => {
  const contents = {
    'cues/1m1.mid': plainCue(),
    'cues/1m2.mid': doubtfulCue(),
    'more/1m3.mid': cutCue(),
  };
  const reversed = Object.fromEntries(Object.entries(contents).toReversed());
  const forward = await planOf(contents, { cues: ['cues', 'more'] });
  const backward = await planOf(reversed, { cues: ['more/1m3.mid', 'more', 'cues'] });
  expect(JSON.stringify(backward)).toBe(JSON.stringify(forward));
});

test('reads of a bank no more than its lists and 64 KiB', async () => {
  // Four samples of 100 000 frames: 800 kB of sound.
  const samples = bankPlan.samples.map((sample) => ({ ...sample, frames: 100_000 }));
  const bytes = writeBank({ ...bankPlan, samples });
  const files = new MemoryFiles({ 'bank.sf2': bytes, 'cues/1m1.mid': plainCue() });
  await plan({ cues: ['cues'], instrument: 'bank.sf2', files });
  const lists = bytes.length - Buffer.from(bytes).indexOf('pdta', 0, 'latin1');
  expect(bytes.length).toBeGreaterThan(800_000);
  expect(files.bytesRead('bank.sf2')).toBeLessThanOrEqual(lists + 65_536);
});

describe('what stops it', () => {
  const contents = { 'cues/1m1.mid': plainCue(), 'notes.sf2': 'not a bank' };
  test.for([
    { options: { cues: ['nothing'] }, error: { finding: { code: 'path-missing' } } },
    { options: { cues: [] }, error: { name: 'UsageError' } },
    { options: { instrument: 'no.sf2' }, error: { finding: { code: 'path-missing' } } },
    { options: { instrument: 'cues' }, error: { finding: { code: 'path-not-a-file' } } },
    { options: { instrument: 'notes.sf2' }, error: { finding: { code: 'bank-not-a-soundfont' } } },
    { options: { instrument: 'bank.sf2#0:1' }, error: { finding: { code: 'preset-missing' } } },
    { options: { instrument: 'bank.sf2#0:128' }, error: { name: 'UsageError' } },
    { options: { without: ['1m2'] }, error: { name: 'UsageError' } },
  ])('$options', async ({ options, error }) => {
    await expect(planOf(contents, options)).rejects.toMatchObject(error);
  });
});
