/** What the SFZ instruments of the demo show: which samples its cues reach, and for which doubts. */
import type { MidiEvent } from 'midi-file';
import { beforeAll, describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan, PlanInstrument } from '../../src/keep/plan.ts';
import { chamberReach, clarinetReach, deckReach, readCue, uprightReach } from './naive-sfz.ts';

const demo = demoFiles();
const files = new MemoryFiles(Object.fromEntries(demo.map(({ path, bytes }) => [path, bytes])));
const cues = demo.filter(({ path }) => path.startsWith('cues/')).map(({ bytes }) => readCue(bytes));

let made: Plan;
let whole: Plan;
beforeAll(async () => {
  made = await plan({ template: 'sfz.yaml', files });
  whole = await plan({ template: 'keepset.yaml', files });
}, 120_000);

const named = (id: string, { instruments }: Plan = made): PlanInstrument =>
  instruments.find((one) => one.id === id)!;

/** Samples of the zones that some reason keeps, each once. */
const keptFor = (
  { kept }: PlanInstrument,
  test: (reasons: readonly string[]) => boolean,
): readonly string[] =>
  [...new Set(kept.flatMap(({ samples, reasons }) => (test(reasons) ? samples : [])))].sort();

const isPlayed = (reasons: readonly string[]): boolean => reasons.includes('played');

interface Played {
  readonly id: string;
  readonly rule: (events: readonly MidiEvent[]) => ReadonlySet<string>;
  readonly tracks: readonly string[];
}

const played: readonly Played[] = [
  { id: 'chamber', rule: chamberReach, tracks: ['Chamber', 'Chamber low'] },
  { id: 'clarinet', rule: clarinetReach, tracks: ['Cl 1'] },
  { id: 'deck', rule: deckReach, tracks: ['Deck perc'] },
  { id: 'upright', rule: uprightReach, tracks: ['Upright'] },
];

describe('what is played is what a naive reader of the cues expects', () => {
  test.each(played)('$id', ({ id, rule, tracks }) => {
    const expected = new Set(
      cues.flatMap((cue) => tracks.flatMap((name) => [...rule(cue.tracks.get(name) ?? [])])),
    );
    expect(expected.size).toBeGreaterThan(12);
    expect(keptFor(named(id), isPlayed)).toEqual([...expected].sort());
    expect(keptFor(named(id, whole), isPlayed)).toEqual([...expected].sort());
  });
});

const pairs = (names: readonly string[], ...marks: readonly string[]): readonly string[] =>
  names.flatMap((name) => marks.map((mark) => name.replace('*', mark))).sort();

/** By hand, from the notes that stand in `src/demo/sfz-tracks.ts`; samples stand 4 or 6 keys apart. */
describe('kept only because of a doubt', () => {
  const only = (id: string, ...doubts: readonly string[]): readonly string[] =>
    keptFor(named(id), (reasons) => reasons.join() === doubts.join());

  test('order: tremolo for the two high notes in front of the switch of their tick', () => {
    expect(only('chamber', 'order')).toEqual(pairs(['trem-*-078.wav', 'trem-*-082.wav'], 'f', 'p'));
  });

  test('no-switch: plucked and tremolo on the keys of the track that never switches', () => {
    // Soft notes on 42, 47, 49, 50, 52, 54, 57, 59; the wheel at 64 up to 52, then near 110.
    const keys = ['043', '049', '055', '061'];
    expect(only('chamber', 'no-switch')).toEqual(
      [
        ...pairs(
          keys.map((key) => `pizz-p-${key}-*.wav`),
          'rr1',
          'rr2',
        ),
        ...['trem-p-050.wav', 'trem-f-050.wav', 'trem-f-042.wav', 'trem-f-046.wav'],
        'trem-f-054.wav', // 58, for 57 and 59, is played in 1m2
      ].sort(),
    );
  });

  test('start-state: the soft dynamic of 49 to 52, before the wheel is moved', () => {
    expect(only('chamber', 'start-state')).toEqual(['sus-p-050.wav']);
  });

  test('smoothing: the middle dynamic of 47, on the way from 64 to 110', () => {
    expect(only('chamber', 'smoothing')).toEqual(['sus-mf-046.wav']);
    // And the soft one, if the wheel came from 0.
    expect(only('chamber', 'start-state', 'smoothing')).toEqual(['sus-p-046.wav']);
  });

  test('tail: the wheel moves in the releases of 49, upwards, and of 42, downwards', () => {
    expect(only('chamber', 'tail')).toEqual(['sus-f-050.wav', 'sus-mf-042.wav', 'sus-p-042.wav']);
  });

  test('pedal-held: the damper of the highest keys', () => {
    expect(only('upright', 'pedal-held')).toEqual(['damper-086.wav']);
  });

  test('engine: sustained behind a switch without regions; transitions of detached notes', () => {
    const behind = only('chamber', 'engine');
    expect(behind.length).toBeGreaterThan(3);
    for (const name of behind) expect(name).toMatch(/^sus-(f-06\d|f-07\d|p-074|mf-074)\.wav$/);
    const transitions = only('clarinet', 'engine');
    expect(transitions.length).toBeGreaterThan(3);
    for (const name of transitions) expect(name).toMatch(/^(up|down)\d-\d{3}\.wav$/);
  });
});

test('each of these doubts has a price of its own, in both templates', () => {
  const open = ['order', 'no-switch', 'start-state', 'smoothing', 'tail', 'pedal-held', 'engine'];
  for (const { doubts } of [made, whole]) {
    const priced = doubts.flatMap(({ name, bytes, settled }) =>
      settled === null && bytes > 0 ? [name] : [],
    );
    expect(priced.sort()).toEqual(expect.arrayContaining(open.sort()));
  }
});

test('the hand is kept without a sample, because it stops the chain', () => {
  const silent = named('deck').kept.filter(({ samples }) => samples.length === 0);
  expect(silent.map(({ reasons }) => reasons)).toEqual([['mutes']]);
});

test('never reached: the anchor, hard planks, the soft pedal, whole registers', () => {
  const dropped = (id: string): readonly string[] =>
    named(id).dropped.flatMap(({ samples }) => samples);
  expect(dropped('deck')).toEqual(
    expect.arrayContaining(['anchor soft.wav', 'anchor hard.wav', 'plank hard 1.wav']),
  );
  expect(dropped('upright')).toContain('soft-pedal-down.wav');
  expect(dropped('clarinet')).toEqual(expect.arrayContaining(['tone-p-051.wav', 'up1-052.wav']));
  expect(dropped('chamber')).toEqual(expect.arrayContaining(['off-085.wav', 'trem-p-086.wav']));
});

test('the pocket sampler holds them only after unloading, and nothing needs a second look', () => {
  const [pocket] = made.machines;
  expect(pocket!.bytes.full).toBeGreaterThan(pocket!.budget!);
  expect(pocket!.fits).toBe(true);
  expect(made.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
});

test('articulations are named by the labels of their switches', () => {
  expect(named('chamber').articulations.map(({ name }) => name)).toEqual([
    'sustain',
    'pizzicato',
    'tremolo',
  ]);
});
