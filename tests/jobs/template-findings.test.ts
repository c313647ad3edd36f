import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan, type PlanOptions } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { TemplateError, UsageError } from '../../src/terms/errors.ts';
import type { Finding, FindingCode } from '../../src/terms/finding.ts';
import { cueBytes, type CueNote, type CueTrack } from './midi-cue.ts';

/** What a plan by a template points out, from the text of the files. */
const table = `key,articulation,switch,keys,velocities,bytes
a,long,24,58-62,1-100,1000
b,short,25,58-66,1-127,2000
`;

const template = (more: string): string => `
cues: cues
instruments:
  band: { zones: band.csv, middle-c: C4 }
${more}
`;

const everything = `routes: [{ track: '*', instrument: band }]`;

const note = (tick: number, key: number, velocity = 80, length = 20): CueNote => ({
  tick,
  length,
  key,
  velocity,
});

const band = (...notes: readonly CueNote[]): readonly CueTrack[] => [{ name: 'Band', notes }];

const planOf = (
  keepset: string,
  cues: Readonly<Record<string, readonly CueTrack[]>>,
  options: PlanOptions = {},
): Promise<Plan> => {
  const files = new MemoryFiles({
    'keepset.yaml': keepset,
    'band.csv': table,
    ...Object.fromEntries(
      Object.entries(cues).map(([id, tracks]) => [`cues/${id}.mid`, cueBytes(tracks)]),
    ),
  });
  return plan({ files, ...options });
};

const found = ({ findings }: Plan, code: FindingCode): readonly Finding[] =>
  findings.filter((one) => one.code === code);

test('switches in another octave than the table has them', async () => {
  // 36 plays nothing, and 24, an octave below, is the switch of "long".
  const plan = await planOf(template(everything), { '1m1': band(note(0, 36), note(480, 60)) });
  expect(found(plan, 'switch-octave-off').map(({ args }) => args)).toEqual([
    { instrument: 'band', expected: [24, 25], seen: [36], octaves: 1 },
  ]);
  const right = await planOf(template(everything), { '1m1': band(note(0, 24), note(480, 60)) });
  expect(found(right, 'switch-octave-off')).toEqual([]);
});

test('notes for which there is no zone, by key and by velocity; switches are none', async () => {
  const plan = await planOf(template(everything), {
    '1m1': band(note(0, 24), note(480, 60), note(960, 60, 101), note(1_440, 70)),
  });
  expect(found(plan, 'notes-without-zone').map(({ args }) => args)).toEqual([
    { instrument: 'band', notes: 2, keys: [60, 70], cues: ['1m1'], tracks: ['Band'] },
  ]);
});

test('an answer that silences notes is said, and the instrument is not called unplayed', async () => {
  const cues = { '1m1': band(note(480, 60), note(960, 61)) };
  const open = await planOf(template(everything), cues);
  expect(open.instruments[0]!.zonesKept).toBe(2);
  expect(found(open, 'settled-silent')).toEqual([]);
  const plan = await planOf(template(everything), cues, { settle: { 'no-switch': 'plain' } });
  expect(plan.instruments[0]!.zonesKept).toBe(0);
  expect(found(plan, 'settled-silent').map(({ args }) => args)).toEqual([
    { instrument: 'band', notes: 2, doubts: ['no-switch'], cues: ['1m1'] },
  ]);
  expect(found(plan, 'instrument-unused')).toEqual([]);
});

describe('the reel', () => {
  const cues = { '1m1': band(note(0, 24)), '1m2 v3': band(note(0, 25)), '2m1': band(note(0, 24)) };

  test('has the order of the template; what it does not name comes behind', async () => {
    const plan = await planOf(template(`reel: [2m1, 1m2]\n${everything}`), cues);
    expect(plan.cues.map(({ id }) => id)).toEqual(['2m1', '1m2 v3', '1m1']);
  });

  test('must not name a cue that is not there', async () => {
    const promise = planOf(template(`reel: [2m1, 1m3]\n${everything}`), cues);
    await expect(promise).rejects.toThrow(TemplateError);
    await expect(promise).rejects.toMatchObject({
      finding: { code: 'reel-cue-missing', args: { cue: '1m3' } },
    });
  });
});

test('with slack a switch that comes late counts, as a doubt', async () => {
  // 480 ticks are half a second here: the switch comes 31 ms after its note.
  const cues = { '1m1': band(note(0, 24), note(480, 60), note(510, 25)) };
  const doubts = async (slack: string) => {
    const { instruments } = await planOf(template(`slack: ${slack}\n${everything}`), cues);
    return instruments[0]!.kept.map(({ key, doubts: sets }) => [key, sets]);
  };
  expect(await doubts('0')).toEqual([['a', [[]]]]);
  expect(await doubts('60 ms')).toEqual([
    ['a', [[]]],
    ['b', [['slack']]],
  ]);
  expect(await doubts('30 ms')).toEqual([['a', [[]]]]);
});

test('articulations by channel, and an export with everything on channel 1: all stay, in doubt', async () => {
  const files = (channel: number) =>
    new MemoryFiles({
      'keepset.yaml': template(everything),
      'band.csv':
        'key,articulation,switch,keys,bytes\na,long,channel 3,60,1\nb,short,channel 4,60,1\n',
      'cues/1m1.mid': cueBytes([{ name: 'Band', channel: channel - 1, notes: [note(0, 60)] }]),
    });
  const kept = async (channel: number) => {
    const { instruments } = await plan({ files: files(channel) });
    return instruments[0]!.kept.map(({ key, reasons }) => [key, ...reasons]);
  };
  expect(await kept(3)).toEqual([['a', 'played']]);
  expect(await kept(4)).toEqual([['b', 'played']]);
  expect(await kept(1)).toEqual([
    ['a', 'no-switch'],
    ['b', 'no-switch'],
  ]);
});

test('a member of a join that no track is called', async () => {
  const routes = `routes: [{ join: [Band, Band KS], instrument: band }]`;
  const plan = await planOf(template(routes), { '1m1': band(note(0, 24), note(480, 60)) });
  expect(found(plan, 'join-idle')).toMatchObject([{ args: { pattern: 'Band KS' } }]);
});

test('instruments that nobody plays come with what leaving them out frees, shared samples aside', async () => {
  const routes = `  spare: { zones: band.csv, middle-c: C4 }\n${everything}`;
  const plan = await planOf(template(routes), { '1m1': band(note(0, 24), note(480, 60)) });
  // Both are one definition on one machine: without the spare one the other still holds it all.
  expect(found(plan, 'instrument-unused').map(({ args }) => args)).toEqual([
    { instrument: 'spare', bytes: 0 },
  ]);
  expect(plan.total).toMatchObject({ zones: 2, samples: 2, bytes: { full: 3_000 } });
});

test('of some cues of the reel nothing is said of what they leave unused: others may use it', async () => {
  const routes = `routes: [{ track: Other, instrument: band }, { track: '*', instrument: band }]`;
  const cues = { '1m1': band(note(0, 24), note(480, 60)), '1m2': band(note(0, 24)) };
  const severities = async (options: PlanOptions) =>
    found(await planOf(template(routes), cues, options), 'route-unused').map((one) => one.severity);
  expect(await severities({})).toEqual(['warning']);
  expect(await severities({ cues: ['cues/1m1.mid'] })).toEqual([]);
  // All of them by name are the whole reel.
  expect(await severities({ cues: ['cues'] })).toEqual(['warning']);
});

test.each([
  ['band/shrot', /no such articulation/],
  ['bnad', /no such instrument/],
])('a pin on the command line that keeps nothing is refused: %s', async (pin, says) => {
  const promise = planOf(template(everything), { '1m1': band(note(0, 24)) }, { pins: [pin] });
  await expect(promise).rejects.toThrow(UsageError);
  await expect(promise).rejects.toThrow(says);
});
