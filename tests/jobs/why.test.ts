import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import { why, type WhyOptions } from '../../src/jobs/why.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { UsageError } from '../../src/terms/errors.ts';
import { writeBank } from '../oracle/soundfont-bytes.ts';
import { bank, bankPlan, cue, note, program } from './small-score.ts';

type Contents = Readonly<Record<string, Uint8Array | string>>;

// Zones 0 and 1 are program 0 below and from middle C, 2 and 3 program 48.
const low = cue({ name: 'Strings', events: [program(0, 48), note(480, 40), note(1920, 45)] });
const keysCue = cue({ name: 'Keys', events: [program(0, 0), note(480, 64), note(960, 48)] });
const score: Contents = { 'bank.sf2': bank(), 'cues/1m1.mid': keysCue, 'cues/1m2.mid': low };

/** A keep file, and what is there when somebody asks about it. */
const kept = async (
  contents: Contents,
  options: Partial<PlanOptions> = { instrument: 'bank.sf2', cues: ['cues'] },
): Promise<string> =>
  toJson(withMessages(await plan({ files: new MemoryFiles(contents), ...options })));

const ask = (contents: Contents, options: Partial<WhyOptions> = {}) =>
  why({ keep: 'keep.json', of: 'bank', files: new MemoryFiles(contents), ...options });

const without = (contents: Contents, gone: string): Contents =>
  Object.fromEntries(Object.entries(contents).filter(([name]) => name !== gone));

const codes = ({ findings }: Awaited<ReturnType<typeof ask>>) => findings.map(({ code }) => code);

test('what stays is told from the keep file, what went from the cues of the plan', async () => {
  const there = { ...score, 'keep.json': await kept(score) };
  const result = await ask(there, { articulation: 'strings' });
  expect(result.findings).toEqual([]);
  expect(result.kept).toMatchObject([
    {
      ...{ zone: 2, reasons: ['played'], notes: 2, cues: { '1m2': 2 }, keys: [0, 59] },
      witnesses: [{ cue: '1m2', bar: 1, beat: 2, key: 40 }, { key: 45 }],
      articulationNames: ['0:48 Strings'],
    },
  ]);
  // Key 60 is the lowest of zone 3: 15 above the 45; and the Keys of 1m1 play E4.
  expect(result.dropped).toMatchObject([
    {
      ...{ zone: 3, keys: [60, 127] },
      nearest: [
        { by: 'keys', distance: 15, notes: 1, place: { cue: '1m2', bar: 2, beat: 1, key: 45 } },
        { by: 'articulation', place: { cue: '1m1', trackName: 'Keys', key: 64 } },
      ],
    },
  ]);
});

test('of the whole instrument all zones, and no cue is played', async () => {
  const gone = without(score, 'cues/1m1.mid');
  const result = await ask({ ...gone, 'keep.json': await kept(score) });
  expect(result.findings).toEqual([]);
  expect(result.kept.map(({ zone }) => zone)).toEqual([0, 1, 2]);
  expect(result.dropped).toMatchObject([{ zone: 3, nearest: null, keys: [60, 127] }]);
});

describe('what is not at hand', () => {
  test('the instrument', async () => {
    const result = await ask({ 'keep.json': await kept(score) }, { articulation: 'strings' });
    expect(result.kept).toMatchObject([{ zone: 2, notes: 2, keys: null }]);
    expect(result.dropped).toMatchObject([{ zone: 3, keys: null, nearest: null }]);
    expect(result.findings).toMatchObject([
      { code: 'why-without-cues', file: 'bank.sf2', args: { missing: 'instrument' } },
    ]);
    const byKey = ask({ 'keep.json': await kept(score) }, { key: 'C4' });
    await expect(byKey).rejects.toThrow('does not say which keys');
  });

  test('the cues', async () => {
    const there = { 'bank.sf2': bank(), 'keep.json': await kept(score) };
    const result = await ask(there, { zone: 3 });
    expect(result.dropped).toMatchObject([{ zone: 3, keys: [60, 127], nearest: null }]);
    expect(result.findings).toMatchObject([
      { code: 'why-without-cues', args: { missing: 'cues' } },
    ]);
  });

  test('the template', async () => {
    const { contents } = template('C4');
    const keep = await kept(contents, { template: 'keepset.yaml' });
    const result = await ask({ 'keep.json': keep }, { of: 'strings', zone: 3 });
    expect(result.dropped[0]!.nearest).toBeNull();
    expect(result.findings).toMatchObject([
      { code: 'why-without-cues', args: { missing: 'template' } },
    ]);
  });

  test('what the user names has to be there', async () => {
    const there = { ...score, 'keep.json': await kept(score) };
    await expect(ask(there, { instrument: 'other.sf2' })).rejects.toThrow();
    await expect(ask(there, { zone: 3, cues: ['other.mid'] })).rejects.toThrow();
  });
});

describe('what has changed', () => {
  test('one cue: the others are asked', async () => {
    const changed = cue({ name: 'Strings', events: [program(0, 48), note(480, 59)] });
    const there = { ...score, 'keep.json': await kept(score), 'cues/1m2.mid': changed };
    const result = await ask(there, { zone: 3 });
    expect(result.findings).toMatchObject([
      { code: 'why-cues-changed', args: { changed: ['1m2'], absent: [] } },
    ]);
    expect(result.dropped[0]!.nearest).toMatchObject([
      { by: 'articulation', place: { cue: '1m1' } },
    ]);
  });

  test('a cue that is gone, and one that was never in the plan', async () => {
    const keep = await kept(score);
    const gone = without(score, 'cues/1m2.mid');
    const absent = await ask({ ...gone, 'keep.json': keep }, { zone: 3 });
    expect(absent.findings).toMatchObject([{ args: { changed: [], absent: ['1m2'] } }]);
    const more = { ...score, 'cues/1m3.mid': keysCue, 'keep.json': keep };
    const named = await ask(more, { zone: 3, cues: ['cues/1m2.mid', 'cues/1m3.mid'] });
    expect(named.findings).toMatchObject([{ args: { changed: ['1m3'], absent: [] } }]);
    expect(named.dropped[0]!.nearest).toMatchObject([{ by: 'keys', distance: 15 }]);
  });

  test('every cue: nothing is near', async () => {
    const there = { ...score, 'keep.json': await kept(score) };
    const other = { ...there, 'cues/1m1.mid': low, 'cues/1m2.mid': keysCue };
    const result = await ask(other, { zone: 3 });
    expect(codes(result)).toEqual(['why-cues-changed']);
    expect(result.dropped[0]!.nearest).toBeNull();
  });

  test('the instrument: only the keep file speaks', async () => {
    const [first, ...others] = bankPlan.samples;
    const longer = writeBank({ ...bankPlan, samples: [{ ...first!, frames: 101 }, ...others] });
    const there = { ...score, 'bank.sf2': longer, 'keep.json': await kept(score) };
    const result = await ask(there, { zone: 3 });
    expect(codes(result)).toEqual(['why-instrument-changed']);
    expect(result.dropped).toMatchObject([{ keys: null, nearest: null }]);
    // Another preset of the same file.
    const preset = { ...score, 'keep.json': await kept(score) };
    expect(codes(await ask(preset, { zone: 3, instrument: 'bank.sf2#0:48' }))).toEqual([
      'why-instrument-changed',
    ]);
  });

  test('the template', async () => {
    const { contents } = template('C4');
    const keep = await kept(contents, { template: 'keepset.yaml' });
    const there = { ...contents, ...template('C3').contents, 'keep.json': keep };
    const result = await ask(there, { of: 'strings', zone: 3 });
    expect(codes(result)).toEqual(['why-template-changed']);
    expect(result.dropped).toMatchObject([{ keys: [60, 127], nearest: null }]);
  });
});

/** The bank as one instrument of a template, whose key 60 has the given name. */
const template = (middleC: string) => ({
  contents: {
    ...score,
    'keepset.yaml': [
      `middle-c: ${middleC}`,
      'cues: cues/*.mid',
      'reel: [1m2, 1m1]',
      'instruments: { strings: { file: bank.sf2 } }',
      'routes: [ { track: "*", instrument: strings } ]',
      '',
    ].join('\n'),
  },
});

test('keys are named as the template names them', async () => {
  const { contents } = template('C3');
  const there = { ...contents, 'keep.json': await kept(contents, { template: 'keepset.yaml' }) };
  const result = await ask(there, { of: 'strings', key: 'B2', articulation: '0:48' });
  expect(result).toMatchObject({
    middleC: 3,
    asked: { key: 59 },
    kept: [{ zone: 2 }],
    dropped: [],
  });
  const number = await ask(there, { of: 'strings', key: '60', articulation: '0:48' });
  expect(number.dropped).toMatchObject([{ zone: 3, nearest: [{ by: 'keys' }, {}] }]);
});

test('a few cues are asked as part of the whole reel', async () => {
  // What a copy chooses in 1m1 answers for 1m2, which chooses nothing: there the doubt is start-state.
  const table = [
    'articulation,switch,keys,bytes',
    'long,24,60-72,1000',
    'short,25,60-72,1000',
    'short,25,73-80,1000',
  ].join('\n');
  const chooses = cue({ name: 'Hn', events: [note(0, 24), note(480, 60)] });
  const plays = cue({ name: 'Hn', events: [note(0, 62)] });
  const contents = { 'hn.csv': table, 'cues/1m1.mid': chooses, 'cues/1m2.mid': plays };
  const made = { instrument: 'hn.csv', middleC: 4, cues: ['cues'] };
  const there = { ...contents, 'keep.json': await kept(contents, made) };
  const result = await ask(there, { of: 'hn', middleC: 4, zone: 1, cues: ['cues/1m2.mid'] });
  expect(result.dropped[0]!.nearest).toMatchObject([{ by: 'articulation', notes: 1 }]);
});

describe('what is not there', () => {
  const wrong: readonly (readonly [Partial<WhyOptions>, string, string])[] = [
    [{ of: 'bnak' }, 'no instrument "bnak"', 'Did you mean "bank"?'],
    [{ of: 'tuba' }, 'no instrument "tuba"', 'It has bank.'],
    [{ articulation: 'strigns' }, 'no articulation "strigns"', 'Did you mean "Strings"?'],
    [{ sample: 'Keys hihg' }, 'no sample "Keys hihg"', 'Did you mean'],
    [{ zone: 9 }, 'no zone 9', 'It has 4, with numbers from 0 to 3.'],
    [{ key: 'H4' }, '"H4" is no key', 'such as C4'],
    [{ key: '128' }, '"128" is no key', '0 to 127'],
    [{ zone: 3, key: '30' }, 'answers to F#1 (30)', 'C4-G9 (60-127)'],
    [{ zone: 3, articulation: 'keys' }, 'all of that together', 'Leave out one'],
  ];
  test.each(wrong)('%j', async (options, message, hint) => {
    const there = { ...score, 'keep.json': await kept(score) };
    const error = await ask(there, options).catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(UsageError);
    expect((error as UsageError).message).toContain(message);
    expect((error as UsageError).hint).toContain(hint);
  });
});

test('samples by their name alone, instruments by their file', async () => {
  const there = { ...score, 'keep.json': await kept(score) };
  const result = await ask(there, { of: 'bank.sf2', sample: 'strings HIGH' });
  expect(result.dropped).toMatchObject([{ zone: 3, samples: ['3:Strings high'] }]);
});
