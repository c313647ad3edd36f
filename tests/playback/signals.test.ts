import { describe, expect, test } from 'vitest';
import type { Condition, Program, Signal, Start } from '../../src/instruments/program.ts';
import { zoneDoubts } from '../../src/keep/reach.ts';
import { namesOf } from '../../src/terms/doubt.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { cc, instrumentOf, off, on, start, usageOf } from './hand-made.ts';

/**
 * Gates on every kind of signal, on programs that no SoundFont needs. What is expected follows from
 * the definitions of the design, section 6, worked out by hand for each case.
 */
type Case = readonly [
  name: string,
  signals: readonly Signal[],
  /** Per zone the conditions of its gate. */
  gates: readonly (readonly Condition[])[],
  events: readonly OracleEvent[],
  /** Per zone the doubt sets, as words. */
  expected: readonly (readonly string[])[],
];

const is = (lo: number, hi = lo, signal = 0): Condition => ({
  signal,
  tests: [{ lo, hi, doubt: 0 }],
});

const words = (sets: readonly number[]): readonly string[] =>
  sets.map((set) => namesOf(set).join('+') || 'plain');

const reached = (
  signals: Program['signals'],
  gates: Program['gates'],
  starts: readonly Start[],
  events: readonly OracleEvent[],
): readonly (readonly string[])[] => {
  const sizes = [...new Set(starts.map(({ zone }) => zone))].map(() => 1);
  const instrument = instrumentOf({ signals, gates, starts }, sizes);
  return zoneDoubts(instrument, [usageOf(instrument, events)]).map(words);
};

const switches: Signal = { kind: 'switch', keys: [[24, 27]], initial: null };
const cc1: Signal = { kind: 'controller', number: 1, initial: null };
const playing = { keys: [40, 100] } as const;

const cases: readonly Case[] = [
  [
    'a latched switch holds until the next one; before the first, those used later are possible',
    [switches],
    [[is(24)], [is(25)], [is(26)]],
    [on(0, 60), on(10, 24), off(11, 24), on(20, 62), on(30, 25), on(40, 64)],
    [['plain'], ['plain'], []],
  ],
  [
    'no switch at all: every articulation, if one is needed',
    [switches],
    [[is(24)], [is(25)]],
    [on(0, 60)],
    [['no-switch'], ['no-switch']],
  ],
  [
    'a default switch is plain; the others are no-switch',
    [{ ...switches, initial: 25 }],
    [[is(24)], [is(25)]],
    [on(0, 60)],
    [['no-switch'], ['plain']],
  ],
  [
    'a switch on the tick of the note, before it: the state before that is possible too',
    [switches],
    [[is(24)], [is(25)]],
    [on(0, 24), on(10, 25), on(10, 60)],
    [['order'], ['plain']],
  ],
  [
    'a controller never set: power-on value plain, 0 under start-state',
    [{ kind: 'controller', number: 7, initial: null }],
    [[is(100)], [is(0)], [is(64)]],
    [on(0, 60)],
    [['plain'], ['start-state'], []],
  ],
  [
    'a controller is read at the note-on: its last value in file order',
    [cc1],
    [[is(0, 63)], [is(64, 127)]],
    [cc(0, 1, 10), cc(5, 1, 90), on(10, 60), cc(20, 1, 20)],
    [[], ['plain']],
  ],
  [
    'a test of another reading of the format',
    [cc1],
    [
      [
        {
          signal: 0,
          tests: [
            { lo: 10, hi: 20, doubt: 0 },
            { lo: 21, hi: 30, doubt: 1 << 7 },
          ],
        },
      ],
    ],
    [cc(0, 1, 25), on(10, 60)],
    [['engine']],
  ],
  [
    'two values on one tick: either may stay',
    [cc1],
    [[is(0, 63)], [is(64, 127)]],
    [cc(0, 1, 10), cc(0, 1, 90), on(10, 60)],
    [['order'], ['plain']],
  ],
  [
    'held keys: first and legato, own key left out',
    [{ kind: 'held', keys: [[40, 100]], own: false }],
    [[is(0)], [is(1, 128)]],
    [on(0, 60), on(10, 62), off(20, 60), off(20, 62)],
    [['plain'], ['plain']],
  ],
  [
    'a chord on one tick: any of its notes may have come first',
    [{ kind: 'held', keys: [[40, 100]], own: false }],
    [[is(0)], [is(2)], [is(3)]],
    [on(0, 60), on(0, 64), on(0, 67)],
    [['plain'], ['plain'], []],
  ],
  [
    'the previous key: the note-on before this one',
    [{ kind: 'previous-key' }],
    [[is(60)], [is(62)], [is(64)]],
    [on(0, 60), off(5, 60), on(10, 62), on(20, 64)],
    [['plain'], ['plain'], []],
  ],
  [
    'the previous velocity; before the first note it may have been any',
    [{ kind: 'previous-velocity' }],
    [[is(1, 63)], [is(64, 127)], [is(128, 200)]],
    [on(0, 60, 10), on(10, 62, 120)],
    [['plain'], ['start-state'], []],
  ],
  [
    'the channel of the note, from 1',
    [{ kind: 'channel' }],
    [[is(1)], [is(2)], [is(3)]],
    [on(0, 60, 100, 1)],
    [[], ['plain'], []],
  ],
  [
    'the tempo at the note: 120 where the file sets none',
    [{ kind: 'tempo' }],
    [[is(120_000_000)], [is(0, 119_999_999)]],
    [on(0, 60)],
    [['plain'], []],
  ],
  [
    'the last program: 0 before any; those chosen elsewhere are possible',
    [{ kind: 'program' }],
    [[is(0)], [is(5)], [is(6)]],
    [on(0, 60), { tick: 10, kind: 'program', channel: 0, program: 5 }, on(20, 62)],
    [['plain'], ['plain'], []],
  ],
  [
    'CC121 as RP-015 says; to the start value or not at all under engine',
    [{ kind: 'controller', number: 1, initial: 90 }],
    [[is(0)], [is(90)], [is(40)]],
    [cc(0, 1, 40), cc(10, 121, 0), on(20, 60)],
    [['plain'], ['engine'], ['engine']],
  ],
  [
    'a start value between two steps',
    [{ kind: 'controller', number: 1, initial: 64, otherInitial: 63 }],
    [[is(64)], [is(63)], [is(62)]],
    [on(0, 60)],
    [['plain'], ['engine'], []],
  ],
  [
    'CC121 back to either of two start values',
    [{ kind: 'controller', number: 1, initial: 64, otherInitial: 63 }],
    [[is(64)], [is(63)], [is(62)]],
    [cc(0, 1, 40), cc(10, 121, 0), on(20, 60)],
    [['engine'], ['engine'], []],
  ],
];

describe('gates on signals', () => {
  test.each(cases)('%s', (_name, signals, gates, events, expected) => {
    const starts = gates.map((_, zone) => start(zone, { ...playing, gate: zone }));
    expect(reached(signals, gates, starts, events)).toEqual(expected);
  });

  test('limits are inclusive, and velocity 0 is no note', () => {
    const starts = [start(0, { keys: [60, 62], velocities: [10, 20] })];
    const at = (key: number, velocity: number) =>
      reached([], [[]], starts, [on(0, key, velocity)])[0]!.length;
    expect([at(60, 10), at(62, 20), at(59, 10), at(63, 10), at(60, 9), at(60, 21)]).toEqual([
      1, 1, 0, 0, 0, 0,
    ]);
    expect(reached([], [[]], [start(0, { velocities: [0, 127] })], [on(0, 60, 0)])).toEqual([[]]);
  });

  test('a zone with several starts is reached by the least doubtful', () => {
    const starts = [start(0, { doubt: 1 << 7 }), start(0, { keys: [60, 60] })];
    expect(reached([], [[]], starts, [on(0, 61)])).toEqual([['engine']]);
    expect(reached([], [[]], starts, [on(0, 60)])).toEqual([['plain']]);
  });
});

describe('starts at the end of notes', () => {
  const starts = [start(0, { event: 'note-off' }), start(1, { event: 'release' })];

  test('without pedals both start at the note-off, with the velocity of the note-on', () => {
    const narrow = starts.map((one) => ({ ...one, velocities: [90, 90] as const }));
    expect(reached([], [[]], narrow, [on(0, 60, 90), off(10, 60)])).toEqual([['plain'], ['plain']]);
    expect(reached([], [[]], narrow, [on(0, 60, 91), off(10, 60)])).toEqual([[], []]);
  });

  test('a pedal delays the release until it goes up', () => {
    const events = [cc(0, 64, 127), on(1, 60), off(10, 60), cc(20, 1, 90), cc(30, 64, 0)];
    const gates = [[], [is(64, 127)]];
    const gated = [
      start(0, { event: 'note-off', gate: 1 }),
      start(1, { event: 'release', gate: 1 }),
    ];
    expect(reached([cc1], gates, gated, events)).toEqual([[], ['plain']]);
  });

  test('a pedal that is never lifted: the release is in doubt', () => {
    const events = [cc(0, 64, 127), on(1, 60), off(10, 60)];
    expect(reached([], [[]], starts, events)).toEqual([['plain'], ['pedal-held']]);
  });

  test('sostenuto holds only the keys that were down with it', () => {
    const events = [on(0, 60), cc(1, 66, 127), on(2, 62), off(3, 60), off(3, 62)];
    const keyed = [
      start(0, { event: 'release', keys: [60, 60] }),
      start(1, { event: 'release', keys: [62, 62] }),
    ];
    expect(reached([], [[]], keyed, events)).toEqual([['pedal-held'], ['plain']]);
  });

  test('two notes of one key end one after the other: none is lost', () => {
    const gated = [
      start(0, { event: 'release', velocities: [10, 10] }),
      start(1, { event: 'release', velocities: [20, 20] }),
    ];
    const events = [on(0, 60, 10), on(1, 60, 20), off(2, 60), off(3, 60)];
    expect(reached([], [[]], gated, events)).toEqual([['plain'], ['plain']]);
  });
});

describe('fades over the life of a voice', () => {
  const layer = (zone: number, lo: number, hi: number, releaseSeconds = 0) =>
    start(zone, { fades: [{ signal: 0, lo, hi }], releaseSeconds });
  const layers = [layer(0, 0, 40), layer(1, 41, 80), layer(2, 81, 127)];
  const play = (events: readonly OracleEvent[], starts: readonly Start[] = layers) =>
    reached([cc1], [[]], starts, events);

  test('every value that is passed between note-on and note-off, jumps joined', () => {
    const events = [cc(0, 1, 20), on(10, 60), cc(20, 1, 100), off(30, 60)];
    expect(play(events)).toEqual([['plain'], ['plain'], ['plain']]);
  });

  test('what comes before the note-on or after the note-off does not count', () => {
    const events = [cc(0, 1, 50), on(10, 60), off(20, 60), cc(30, 1, 127)];
    expect(play(events)).toEqual([['smoothing'], ['plain'], []]);
  });

  test('a release that still sounds: doubt tail, only as long as the zone lasts', () => {
    const long = [layer(0, 0, 40, 1), layer(1, 41, 80, 1), layer(2, 81, 127, 1)];
    // 480 ticks a quarter at 120: a tick is 1/960 s.
    const events = [cc(0, 1, 60), cc(5, 1, 60), on(10, 60), off(20, 60), cc(500, 1, 127)];
    expect(play(events, long)).toEqual([[], ['plain'], ['tail']]);
    const late = [...events.slice(0, 4), cc(2000, 1, 127)];
    expect(play(late, long)).toEqual([[], ['plain'], []]);
    const mixed = [layer(0, 0, 40, 1), layer(1, 41, 80, 1), layer(2, 81, 127, 0.1)];
    expect(play(events, mixed)).toEqual([[], ['plain'], []]);
  });

  test('under a pedal the voice lives on; if it is never lifted that is a doubt', () => {
    const events = [
      cc(0, 1, 60),
      cc(1, 1, 60),
      cc(5, 64, 127),
      on(10, 60),
      off(20, 60),
      cc(30, 1, 127),
    ];
    expect(play(events)).toEqual([[], ['plain'], ['pedal-held']]);
    expect(play([...events, cc(40, 64, 0)])).toEqual([[], ['plain'], ['plain']]);
  });

  test('a jump just before the note: doubt smoothing', () => {
    const events = [cc(0, 1, 10), cc(5, 1, 100), on(10, 60), off(20, 60)];
    expect(play(events)).toEqual([['smoothing'], ['smoothing'], ['plain']]);
  });

  test('two fades need a common instant', () => {
    const both: Start = start(0, {
      fades: [
        { signal: 0, lo: 64, hi: 127 },
        { signal: 1, lo: 64, hi: 127 },
      ],
    });
    const signals: readonly Signal[] = [cc1, { kind: 'controller', number: 2, initial: null }];
    const set = [cc(0, 1, 0), cc(0, 2, 0), cc(1, 1, 0), cc(1, 2, 0), on(10, 60)];
    const apart = [cc(20, 1, 127), cc(30, 1, 0), cc(40, 2, 127), off(50, 60)];
    const together = [cc(20, 1, 127), cc(40, 2, 127), off(50, 60)];
    expect(reached(signals, [[]], [both], [...set, ...apart])).toEqual([[]]);
    expect(reached(signals, [[]], [both], [...set, ...together])).toEqual([['plain']]);
  });
});
