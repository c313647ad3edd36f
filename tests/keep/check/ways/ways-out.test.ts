import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../../../src/instruments/instrument.ts';
import { zoneTable } from '../../../../src/instruments/zone-table/read.ts';
import { waysOut } from '../../../../src/keep/check/ways/ways-out.ts';
import type { Score } from '../../../../src/midi/score.ts';
import { doubtSet } from '../../../../src/terms/doubt.ts';
import { cc, instrumentOf, off, on, start } from '../../../playback/hand-made.ts';
import { scoreOf } from '../../../playback/oracle-score.ts';
import { readText } from '../../../playback/sfz-cue.ts';
import { keeping, missingZones, waysOf, type Kept } from './found.ts';
import { expectTrue, play } from './take-way.ts';

/** All values here are worked out by hand from the tables beside them. */
const table = (...rows: readonly string[]): Instrument =>
  zoneTable(
    new TextEncoder().encode(
      ['articulation,switch,keys,velocities,controllers,release,frames', ...rows].join('\n'),
    ),
    'table.csv',
    4,
    () => 'digest',
  );

const strings = table(
  'sustain,24,60-72,,1:0-96,,9', // zone 0
  'sustain,24,60-72,,1:97-127,,9', // zone 1
  'spiccato,25,60-72,1-110,,,9', // zone 2
  'spiccato,25,60-72,111-127,,,9', // zone 3
  'tremolo,26,60-65,,,,9', // zone 4
);

const softly = keeping(0, 2, 4);

/** The ways out of each miss of a score, after each of them has been taken. */
const waysIn = (instrument: Instrument, kept: Kept, ...scores: readonly Score[]) => {
  const files = play(instrument, scores);
  const misses = [...missingZones(instrument, files, kept)].sort((a, b) => a - b);
  const ways = waysOf(instrument, files, kept, misses);
  misses.forEach((zone, i) => {
    for (const way of ways[i]!) expectTrue(instrument, scores, kept, zone, way);
  });
  return Object.fromEntries(misses.map((zone, i) => [zone, ways[i]!]));
};

const manner = (articulation: string, key: string) => ({
  kind: 'articulation',
  articulation,
  switch: key,
});
const sustain = manner('sustain', 'C1 (24)');
const spiccato = manner('spiccato', 'C#1 (25)');
const tremolo = manner('tremolo', 'D1 (26)');

describe('velocity', () => {
  test('113 -> 110, or the same key in another articulation that stays', () => {
    const score = scoreOf([on(0, 25), off(10, 25), on(20, 62, 113), off(30, 62)]);
    expect(waysIn(strings, softly, score)).toEqual({
      3: [
        { kind: 'velocity', changes: [{ key: 62, from: 113, to: 110, notes: 1 }] },
        sustain,
        tremolo,
      ],
    });
  });

  test('each key and velocity has a change of its own, with its notes', () => {
    const score = scoreOf([
      ...[on(0, 25), on(20, 70, 127), on(30, 62, 113), on(40, 62, 113), on(50, 62, 111)],
      ...[off(60, 62), on(70, 62, 50)],
    ]);
    expect(waysIn(strings, softly, score)[3]).toEqual([
      {
        kind: 'velocity',
        changes: [
          { key: 62, from: 111, to: 110, notes: 1 },
          { key: 62, from: 113, to: 110, notes: 2 },
          { key: 70, from: 127, to: 110, notes: 1 },
        ],
      },
      sustain,
    ]);
  });

  const layers = table(',,60,1-59,,,9', ',,60,60-64,,,9', ',,60,65-127,,,9');

  test('of two as near, the lower', () => {
    expect(waysIn(layers, keeping(0, 2), scoreOf([on(0, 60, 62)]))[1]).toEqual([
      { kind: 'velocity', changes: [{ key: 60, from: 62, to: 59, notes: 1 }] },
    ]);
    expect(waysIn(layers, keeping(0, 2), scoreOf([on(0, 60, 63)]))[1]).toEqual([
      { kind: 'velocity', changes: [{ key: 60, from: 63, to: 65, notes: 1 }] },
    ]);
  });

  test('none where one of the notes has none, or would fall silent', () => {
    const gap = table(',,60-61,1-50,,,9', ',,60-62,80-127,,,9');
    const score = scoreOf([on(0, 60, 90), on(10, 61, 90)]);
    expect(waysIn(gap, keeping(0), score)[1]).toEqual([
      {
        kind: 'velocity',
        changes: [
          { key: 60, from: 90, to: 50, notes: 1 },
          { key: 61, from: 90, to: 50, notes: 1 },
        ],
      },
    ]);
    const more = scoreOf([on(0, 60, 90), on(10, 61, 90), on(20, 62, 90)]);
    expect(waysIn(gap, keeping(0), more)).toEqual({ 1: [] });
  });

  test('releases carry the velocity of their note', () => {
    const piano = table(
      ',,60,1-99,,,9',
      ',,60,100-127,,,9',
      ',,60,1-90,,yes,9',
      ',,60,91-127,,yes,9',
    );
    const score = scoreOf([on(0, 60, 120), off(10, 60)]);
    const to = (velocity: number) => [
      { kind: 'velocity', changes: [{ key: 60, from: 120, to: velocity, notes: 1 }] },
    ];
    expect(waysIn(piano, keeping(0, 1, 2), score)).toEqual({ 3: to(90) });
    expect(waysIn(piano, keeping(0, 2, 3), score)).toEqual({ 1: to(99) });
    expect(waysIn(piano, keeping(0, 2), score)).toEqual({ 1: to(90), 3: to(90) });
  });

  test('none where other notes listen to it, or where tuning sounds other keys', async () => {
    const listening = await readText(`
      <region> key=60 hivel=99 sample=a.wav
      <region> key=60 lovel=100 sample=b.wav
      <region> key=60 sw_vel=previous sw_previous=60 lovel=100 sample=c.wav`);
    expect(waysIn(listening, keeping(0, 2), scoreOf([on(0, 60, 120)]))).toEqual({ 1: [] });
    const tuned = [cc(0, 101, 0), cc(0, 100, 2), cc(0, 6, 65), on(10, 60, 113)];
    const loud = table(',,60-61,1-110,,,9', ',,60-61,111-127,,,9');
    expect(waysIn(loud, keeping(0), scoreOf(tuned))).toEqual({ 1: [] });
    expect(waysIn(loud, keeping(0), scoreOf(tuned.slice(3)))[1]).toHaveLength(1);
  });
});

describe('controller', () => {
  test('1 peak 101 -> 96, or the same keys in another articulation that stays', () => {
    const score = scoreOf([
      ...[on(0, 24), off(10, 24), cc(20, 1, 40), on(30, 62), cc(40, 1, 101), off(50, 62)],
      ...[on(60, 60), cc(70, 1, 98), off(80, 60)],
    ]);
    expect(waysIn(strings, softly, score)[1]).toEqual([
      { kind: 'controller', number: 1, limit: 'at-most', from: 101, to: 96 },
      spiccato,
      tremolo,
    ]);
  });

  test('none that leaves notes without a sound', () => {
    const loud = table(',,60,,1:20-60,,9', ',,60,,1:61-127,,9');
    const score = scoreOf([cc(0, 1, 80), on(10, 60), cc(20, 1, 20), off(30, 60)]);
    expect(waysIn(loud, keeping(0), score)[1]).toEqual([
      { kind: 'controller', number: 1, limit: 'at-most', from: 80, to: 60 },
    ]);
    expect(waysIn(loud, keeping(1), scoreOf([cc(0, 1, 50), on(10, 60)]))).toEqual({ 0: [] });
  });

  const expression = table(',,60,,11:0-30,,9', ',,60,,11:31-127,,9');
  const dip = scoreOf([cc(0, 11, 90), on(10, 60), cc(20, 11, 12), off(30, 60)]);

  test('at least: what is there before the first message is not too low', () => {
    // Expression is 127 at power-on and after a reset; that a session left it at 0 is ruled out.
    const kept = { ...keeping(1), excluded: doubtSet('start-state') };
    expect(waysIn(expression, kept, dip)[0]).toEqual([
      { kind: 'controller', number: 11, limit: 'at-least', from: 12, to: 31 },
    ]);
    const wheel = table(',,60,,1:0-30,,9', ',,60,,1:31-127,,9');
    const same = scoreOf([cc(0, 1, 90), on(10, 60), cc(20, 1, 12), off(30, 60)]);
    // A wheel at 0 may be one that was never moved: nothing that is sent would change that.
    expect(waysIn(wheel, kept, same)).toEqual({ 0: [] });
  });

  test('at least: a value that was sent may hide one from before the cue', () => {
    // On tick 0 the note may come first, and find the 0 of another session.
    const score = scoreOf([cc(0, 11, 0), on(0, 60), cc(1, 11, 60), off(9, 60)]);
    expect(waysIn(expression, keeping(1), score)).toEqual({ 0: [] });
    const kept = { ...keeping(1), excluded: doubtSet('start-state', 'order') };
    expect(waysIn(expression, kept, score)[0]).toEqual([
      { kind: 'controller', number: 11, limit: 'at-least', from: 0, to: 31 },
    ]);
  });

  test('the smaller step of two controllers first', () => {
    const two = table(',,60,,,,9', ',,60,,1:61-127 & 21:91-127,,9');
    const score = scoreOf([
      ...[cc(0, 1, 100), cc(0, 21, 95), on(10, 60), off(20, 60)],
      ...[cc(30, 1, 127), cc(30, 21, 20), on(40, 60), off(50, 60)],
    ]);
    expect(waysIn(two, keeping(0), score)).toEqual({
      1: [
        { kind: 'controller', number: 21, limit: 'at-most', from: 95, to: 90 },
        { kind: 'controller', number: 1, limit: 'at-most', from: 127, to: 60 },
      ],
    });
  });

  test('none for a pedal, which does more; none that leaves something else missing', () => {
    const pedal = table(',,60,,,,9', ',,60,,64:64-127,,9');
    const down = [cc(0, 64, 127), on(10, 60), off(20, 60)];
    expect(waysIn(pedal, keeping(0), scoreOf(down))).toEqual({ 1: [] });
    const more = table(',,60,,,,9', ',,60,,1:61-127,,9', ',,60,,21:91-127,,9');
    const wheel = [cc(0, 1, 100), on(10, 60), off(20, 60)];
    expect(waysIn(more, keeping(0), scoreOf(wheel))[1]).toHaveLength(1);
    const both = [cc(0, 21, 95), ...wheel];
    expect(waysIn(more, keeping(0), scoreOf(both))).toEqual({ 1: [], 2: [] });
  });

  test('controllers that start something', async () => {
    const noises = await readText(`
      <region> key=60 hicc20=120 sample=a.wav
      <region> key=-1 on_locc20=100 on_hicc20=127 sample=b.wav`);
    const score = scoreOf([on(0, 60), cc(10, 20, 90), cc(20, 20, 110), off(30, 60)]);
    expect(waysIn(noises, keeping(0), score)).toEqual({
      1: [{ kind: 'controller', number: 20, limit: 'at-most', from: 110, to: 99 }],
    });
  });
});

describe('articulation', () => {
  test('not above its range, not one that misses something itself, no more than three', () => {
    const high = scoreOf([on(0, 25), off(10, 25), on(20, 70, 113)]);
    expect(waysIn(strings, softly, high)[3]!.slice(1)).toEqual([sustain]);
    expect(waysIn(strings, keeping(2, 4), high)[3]!.slice(1)).toEqual([]);
    const many = table(
      ...['a,24', 'b,25', 'c,26', 'd,27', 'e,28'].map((one) => `${one},60,,,,9`),
      ',,60,,,yes,9',
    );
    const score = scoreOf([on(0, 24), on(10, 60), off(20, 60)]);
    const names = waysIn(many, keeping(1, 2, 3, 4, 5), score)[0]!.map((way) =>
      way.kind === 'articulation' ? way.articulation : way.kind,
    );
    expect(names).toEqual(['b', 'c', 'd']);
  });
});

describe('copies and files', () => {
  const loud = instrumentOf(
    {
      signals: [],
      gates: [[]],
      starts: [start(0, { velocities: [1, 99] }), start(1, { velocities: [100, 127] })],
    },
    [1, 1],
  );
  const [first, second] = [scoreOf([on(0, 60, 113)]), scoreOf([on(0, 60, 113), on(5, 60, 127)])];
  const both: Score = {
    ...first,
    tracks: [...first.tracks, { ...second.tracks[0]!, index: 1 }],
  };
  const change = (from: number, notes: number) => ({ key: 60, from, to: 99, notes });

  test('misses of one copy, and of all copies', () => {
    const files = play(loud, [both]);
    const names = files[0]!.copies.map(({ copy }) => copy);
    const context = { instrument: loud, files, learned: [], excluded: 0 };
    const isLoaded = (copy: string, zone: number): boolean => zone === 0 || copy === names[0];
    const own = { ...context, isLoaded, isKept: isLoaded };
    expect(waysOut(own, [{ zone: 1, copy: names[1]!, silent: false }])).toEqual([
      [{ kind: 'velocity', changes: [change(113, 1), change(127, 1)] }],
    ]);
    const alike = {
      ...context,
      isLoaded: (_: string, zone: number) => zone === 0,
      isKept: () => false,
    };
    expect(waysOut(alike, [{ zone: 1, copy: null, silent: false }])).toEqual([
      [{ kind: 'velocity', changes: [change(113, 2), change(127, 1)] }],
    ]);
  });

  test('all files count that drive a copy', () => {
    expect(waysIn(loud, keeping(0), first, second)).toEqual({
      1: [{ kind: 'velocity', changes: [change(113, 2), change(127, 1)] }],
    });
  });

  test('what the keep file knows of a copy asks too', () => {
    const files = play(strings, [scoreOf([on(0, 62, 113)])]);
    const context = {
      instrument: strings,
      files,
      excluded: doubtSet('no-switch'),
      isLoaded: (_: string, zone: number) => softly.loaded.has(zone),
      isKept: (_: string, zone: number) => softly.loaded.has(zone),
    };
    const miss = [{ zone: 3, copy: null, silent: false }];
    expect(waysOut({ ...context, learned: [] }, miss)).toEqual([[]]);
    const { copy } = files[0]!.copies[0]!;
    const signal = strings.program.signals.findIndex(({ kind }) => kind === 'switch');
    const learned = [{ copy, chosen: [{ signal, channel: -1, values: [25] }] }];
    expect(waysOut({ ...context, learned }, miss)).toEqual([
      [
        { kind: 'velocity', changes: [{ key: 62, from: 113, to: 110, notes: 1 }] },
        sustain,
        tremolo,
      ],
    ]);
  });
});
