/** Hand-worked cues for outlines: what is plain, and what each doubt adds. */
import { describe, expect, test } from 'vitest';
import {
  articulation,
  conditions,
  legato,
  releases,
  type OutlineArticulation,
  type OutlineEvent,
} from './outline-data.ts';
import { playOutline } from './outline-player.ts';

/** 1000 ticks to the second. */
const event = (
  tick: number,
  kind: OutlineEvent['kind'],
  data1: number,
  data2 = 0,
): OutlineEvent => ({ tick, seconds: tick / 1000, channel: 0, kind, data1, data2 });
const on = (tick: number, key: number, velocity = 80) => event(tick, 'note-on', key, velocity);
const off = (tick: number, key: number) => event(tick, 'note-off', key, 64);
const cc = (tick: number, number: number, value: number) =>
  event(tick, 'controller', number, value);
const program = (tick: number, number: number) => event(tick, 'program', number);
const pressure = (tick: number, value: number) => event(tick, 'pressure', value);
const onChannel = (channel: number, one: OutlineEvent) => ({ ...one, channel: channel - 1 });

/** Zones that are reached, by name, with their doubt sets: `plain`, or `order+stretch | tail`. */
const reached = (
  articulations: readonly OutlineArticulation[],
  ...cues: readonly (readonly OutlineEvent[])[]
) => {
  const reel = cues.map((events) => ({ events, tempos: [] }));
  return Object.fromEntries(
    playOutline({ articulations }, reel).flatMap(({ zone, reached }) =>
      reached.length === 0
        ? []
        : [[zone, reached.map((set) => set.join('+') || 'plain').join(' | ')]],
    ),
  );
};

const c4 = { keys: [[60, 60]] } as const;
/** The same with what was recorded: no zone stands for more than its notes. */
const recorded = { ...c4, sampled: [60] } as const;
const line = { keys: [[60, 72]] } as const;
const keyed = (name: string, key: number, given: Partial<OutlineArticulation> = line) =>
  articulation(name, { switch: { kind: 'key', key }, ...given });

describe('what is chosen', () => {
  const two = [keyed('a', 24, recorded), keyed('b', 25, recorded)];

  test('a switch stays in force; what is chosen elsewhere may have been before', () => {
    expect(reached(two, [on(0, 24), off(1, 24), on(500, 60)])).toEqual({ 'a C4': 'plain' });
    expect(reached(two, [on(0, 60), on(500, 25)])).toEqual({ 'b C4': 'start-state' });
    expect(reached(two, [on(0, 60)])).toEqual({ 'a C4': 'no-switch', 'b C4': 'no-switch' });
  });

  test('a switch on the tick of its note stands before it or after it', () => {
    expect(reached(two, [on(0, 25), on(500, 60), on(500, 24)])).toEqual({
      'a C4': 'order',
      'b C4': 'plain',
    });
  });

  test('programs, controllers and channels', () => {
    const by = (...switches: OutlineArticulation['switch'][]) =>
      switches.map((one, i) => articulation('ab'[i]!, { switch: one, ...c4 }));
    const programs = by({ kind: 'program', program: 5 }, { kind: 'program', program: 6 });
    expect(reached(programs, [program(0, 6), on(1, 60)])).toEqual({ 'b C4': 'plain' });
    const controllers = by(
      { kind: 'controller', number: 32, values: [0, 20] },
      { kind: 'controller', number: 32, values: [21, 40] },
    );
    expect(reached(controllers, [cc(0, 32, 40), on(1, 60)])).toEqual({ 'b C4': 'plain' });
    const channels = by({ kind: 'channel', channel: 3 }, { kind: 'channel', channel: 1 });
    expect(reached(channels, [onChannel(3, on(0, 60))])).toEqual({ 'a C4': 'plain' });
    expect(reached(channels, [onChannel(4, on(0, 60))])).toEqual({
      'a C4': 'no-switch',
      'b C4': 'no-switch',
    });
  });

  test('none, player-decides, and a switch that is not known', () => {
    const others = [
      articulation('always', { switch: { kind: 'none' }, ...c4 }),
      articulation('decided', { when: 'player-decides', ...c4 }),
      articulation('unknown', c4),
    ];
    expect(reached([...two, ...others], [on(0, 24), on(1, 60)])).toEqual({
      'a C4': 'plain',
      'always C4': 'plain',
      'decided C4': 'plain',
      'unknown C4': 'no-switch',
    });
    expect(reached([articulation('alone', c4)], [on(0, 60)])).toEqual({ 'alone C4': 'plain' });
    expect(reached([keyed('alone', 24, c4)], [on(0, 60)])).toEqual({ 'alone C4': 'plain' });
  });
});

describe('when', () => {
  const asked = (given: Parameters<typeof conditions>[0]) => [
    articulation('a', { when: conditions(given), ...c4 }),
  ];

  test.each([
    ['velocity', asked({ velocity: [100, 127] }), [on(0, 60, 100)], [on(0, 60, 99)]],
    ['pressure', asked({ pressure: [1, 127] }), [pressure(0, 1), on(1, 60)], [on(0, 60)]],
    ['held', asked({ held: [2, 3] }), [on(0, 50), on(1, 60)], [on(0, 60)]],
    ['held', asked({ held: [1, 1] }), [on(0, 60)], [on(0, 50), on(1, 60)]],
  ])('%s', (_, outline, yes, no) => {
    expect(reached(outline, yes)).toEqual({ 'a C4': 'plain' });
    expect(reached(outline, no)).toEqual({});
  });

  test('controllers, at the note-on and not later', () => {
    const outline = asked({ controllers: [[1, [64, 127]]] });
    expect(reached(outline, [cc(0, 1, 64), on(1, 60), cc(2, 1, 0)])).toEqual({ 'a C4': 'plain' });
    expect(reached(outline, [cc(0, 1, 0), on(1, 60), cc(2, 1, 64)])).toEqual({});
  });

  test('both the layer and the condition have to allow a velocity', () => {
    const outline = [
      articulation('a', {
        ...c4,
        when: conditions({ velocity: [50, 127] }),
        layers: [
          {
            of: 'velocity',
            layers: [
              [1, 60],
              [70, 127],
            ],
          },
        ],
      }),
    ];
    expect(reached(outline, [on(0, 60, 49), on(1, 60, 65)])).toEqual({});
    expect(reached(outline, [on(0, 60, 50)])).toEqual({ 'a C4 v1-60': 'plain' });
  });
});

describe('layers', () => {
  test('borders that are not printed: every layer may answer', () => {
    const outline = [articulation('a', { ...c4, layers: [{ of: 'velocity', layers: 3 }] })];
    expect(reached(outline, [on(0, 60, 42)])).toEqual({
      'a C4 layer 1 of 3': 'plain',
      'a C4 layer 2 of 3': 'stretch',
      'a C4 layer 3 of 3': 'stretch',
    });
  });

  test('a controller is audible at some time of the note, or dying away', () => {
    const layers = [[0, 40] as const, [41, 90] as const, [91, 127] as const];
    const outline = [articulation('a', { ...c4, layers: [{ of: 1, layers }] })];
    expect(
      reached(outline, [cc(0, 1, 0), on(1, 60), cc(2, 1, 50), off(3, 60), cc(4, 1, 127)]),
    ).toEqual({ 'a C4 cc1 0-40': 'plain', 'a C4 cc1 41-90': 'plain', 'a C4 cc1 91-127': 'tail' });
    expect(
      reached(
        [articulation('a', { ...c4, layers: [{ of: 1, layers: 2 }] })],
        [cc(0, 1, 127), on(1000, 60)],
      ),
    ).toEqual({ 'a C4 layer 1 of 2': 'smoothing | stretch', 'a C4 layer 2 of 2': 'plain' });
  });
});

test('a pedal that never goes up may hold a note for all that comes', () => {
  const layers = [{ of: 1, layers: [[90, 127]] }] as const;
  const cue = [cc(0, 64, 127), on(100, 60), off(200, 60), cc(300, 1, 90)];
  const outline = [articulation('a', { ...c4, layers })];
  expect(reached(outline, cue)).toEqual({ 'a C4 cc1 90-127': 'pedal-held' });
  expect(reached(outline, [...cue, cc(400, 64, 0)])).toEqual({ 'a C4 cc1 90-127': 'plain' });
});

describe('releases', () => {
  const released = (at: 'release' | 'note-off' | null) => [
    articulation('a', { ...c4, releases: releases({ at }) }),
  ];
  const underPedal = [cc(0, 64, 127), on(1, 60), off(2, 60)];

  test.each([
    ['release', 'pedal-held'],
    ['note-off', 'plain'],
    [null, 'pedal-held | stretch'],
  ] as const)('at %s', (at, held) => {
    const release = 'a C4 release';
    expect(reached(released(at), underPedal)[release]).toBe(held);
    expect(reached(released(at), [on(1, 60), off(2, 60)])[release]).toBe('plain');
    expect(reached(released(at), [on(1, 60)])[release]).toBe('pedal-held');
  });

  test('the velocity of the note-on, the switch of the end', () => {
    const velocity = { of: 'velocity', layers: [[1, 80]] } as const;
    const one = releases({ at: 'release', layers: [velocity] });
    const outline = [keyed('a', 24, { ...recorded, releases: one }), keyed('b', 25, recorded)];
    const played = (strike: number) =>
      reached(outline, [on(0, 25), on(100, 60, strike), on(200, 24), off(300, 60)]);
    expect(played(80)).toEqual({ 'b C4': 'plain', 'a C4 v1-80 release': 'plain' });
    expect(played(81)).toEqual({ 'b C4': 'plain' });
  });
});

describe('a coarse zone that is chosen may hold releases, or what is come back to', () => {
  /** Struck as `a` and let go as `b`. */
  const cue = [on(0, 24), off(1, 24), on(100, 60), on(200, 25), off(201, 25), off(300, 60)];
  const played = (given: Partial<OutlineArticulation>, events = cue) =>
    reached([keyed('a', 24, recorded), keyed('b', 25, { ...c4, ...given })], events)['b C4'];

  test('at the end of a note, by the switch of then', () => {
    expect(played({})).toBe('stretch');
    expect(played({ sampled: [60] })).toBeUndefined();
    // With nothing but its note-on it would not be reached: 60 ends before the switch.
    expect(played({}, [on(0, 24), on(100, 60), off(150, 60), on(200, 25)])).toBeUndefined();
    // The key alone goes up: the pedal holds the note.
    expect(played({}, [cc(0, 64, 127), ...cue])).toBe('stretch');
    // The pedal goes up as well, and later.
    const late = [cc(0, 64, 127), ...cue.filter(({ data1 }) => data1 !== 25)];
    expect(played({}, [...late, on(400, 25), off(401, 25), cc(500, 64, 0)])).toBe('stretch');
  });

  test('by the velocity of the note, but by no other condition', () => {
    const when = (given: Parameters<typeof conditions>[0]) => ({ when: conditions(given) });
    expect(played(when({ velocity: [1, 80] }))).toBe('stretch');
    expect(played(when({ velocity: [81, 127] }))).toBeUndefined();
    expect(played(when({ controllers: [[1, [0, 127]]] }))).toBeUndefined();
    expect(played(when({ pressure: [0, 127] }))).toBeUndefined();
    expect(played(when({ held: [0, 9] }))).toBeUndefined();
  });

  test('only where a switch chooses it', () => {
    const b = articulation('b', c4);
    const others = [keyed('a', 24, recorded), { ...b, when: conditions({ velocity: [1, 80] }) }];
    const ends = [on(100, 60, 90), off(300, 60)];
    expect(reached(others, ends)['b C4']).toBeUndefined();
    expect(reached([others[0]!, b], ends)['b C4']).toBe('no-switch');
  });
});

describe('key switches that nothing plays are no notes', () => {
  const sung = (keys: OutlineArticulation['keys']) => [
    keyed('a', 24, {
      ...{ keys: [[60, 60]], sampled: [60] },
      legato: legato({ intervals: 2, overlap: 0.08, returns: false }),
    }),
    keyed('b', 25, { keys, sampled: [60], legato: legato({ overlap: 0.08, returns: false }) }),
  ];
  const up = 'a C4 legato +2';

  test('not the key before', () => {
    const cue = [on(0, 58), on(100, 24), off(101, 24), on(500, 60)];
    expect(reached(sung([[60, 60]]), cue)[up]).toBe('plain');
    // Said to be playable, it is a note: 58 is another key that is held.
    expect(reached(sung([[24, 60]]), cue)[up]).toBe('stretch');
  });

  test('not held', () => {
    const cue = [on(0, 25), on(500, 60)];
    const any = 'b C4 legato';
    expect(reached(sung([[60, 60]]), cue)[any]).toBeUndefined();
    expect(reached(sung([[25, 60]]), cue)[any]).toBe('plain');
    const two = (keys: OutlineArticulation['keys']) => [
      keyed('a', 24, recorded),
      keyed('b', 25, { keys, sampled: [60], when: conditions({ held: [2, 2] }) }),
    ];
    expect(reached(two([[60, 60]]), cue)['b C4']).toBeUndefined();
    expect(reached(two([[25, 60]]), cue)['b C4']).toBe('plain');
    // A key that is left out of all ranges is no note either: ranges left out hold no switch.
    expect(reached(two(null), cue)['b C4']).toBeUndefined();
  });
});

describe('legato', () => {
  const sung = (given: Parameters<typeof legato>[0] = {}) => [
    articulation('a', { ...c4, sampled: [60], legato: legato({ returns: false, ...given }) }),
  ];
  const up = 'a C4 legato +2';

  test('the target sounds in any case, the transition while the key before is held', () => {
    const outline = sung({ intervals: 2, overlap: 0.08 });
    expect(reached(outline, [on(0, 58), on(500, 60)])).toEqual({ 'a C4': 'plain', [up]: 'plain' });
    expect(reached(outline, [on(0, 57), on(500, 60)])).toEqual({ 'a C4': 'plain' });
    expect(reached(outline, [on(0, 62), on(500, 60)])).toEqual({
      'a C4': 'plain',
      'a C4 legato -2': 'plain',
    });
  });

  test.each<[string, number | null, number, string | undefined]>([
    ['inside the window', 0.08, 480, 'plain'],
    ['after it', 0.08, 400, undefined],
    ['no window is known', null, 100, 'stretch'],
  ])('let go before: %s', (_, overlap, letGo, expected) => {
    const outline = sung({ intervals: 2, overlap });
    expect(reached(outline, [on(0, 58), off(letGo, 58), on(500, 60)])[up]).toBe(expected);
  });

  test('another key that is held may be the one it comes from', () => {
    const outline = sung({ intervals: 2, overlap: 0.08 });
    expect(reached(outline, [on(0, 58), on(100, 59), on(500, 60)])).toEqual({
      'a C4': 'plain',
      'a C4 legato +1': 'plain',
      [up]: 'stretch',
    });
  });

  test('without intervals: any note while another key is held', () => {
    const any = 'a C4 legato';
    const window = sung({ overlap: 0.08 });
    expect(reached(window, [on(0, 30), on(500, 60)])[any]).toBe('plain');
    expect(reached(window, [on(0, 30), off(400, 30), on(500, 60)])[any]).toBeUndefined();
    expect(reached(sung(), [on(0, 30), off(400, 30), on(500, 60)])[any]).toBe('stretch');
    expect(reached(sung(), [on(500, 60)])[any]).toBeUndefined();
  });

  test.each([
    [true, 'plain', 'stretch'],
    [null, 'stretch', 'stretch'],
    [false, undefined, undefined],
  ])('returns %s', (returns, byReleased, any) => {
    const layers = [
      {
        of: 'velocity',
        layers: [
          [1, 40],
          [41, 127],
        ],
      } as const,
    ];
    const outline = [
      articulation('a', {
        ...c4,
        sampled: [60],
        layers,
        legato: legato({ intervals: 2, overlap: 0.08, returns }),
      }),
    ];
    // 60 is struck soft, and comes back by the velocity of 62 when that goes up.
    const cue = [on(0, 60, 30), on(500, 62, 100), off(900, 62), off(1000, 60)];
    const found = reached(outline, cue);
    expect(found['a C4 v41-127']).toBe(byReleased);
    expect(found['a C4 legato -2']).toBe(byReleased);
    expect(found['a C4 v1-40']).toBe('plain');
    const soft = [on(0, 60, 30), on(500, 62, 30), off(900, 62), off(1000, 60)];
    expect(reached(outline, soft)['a C4 v41-127']).toBe(any);
  });

  test('what comes back is kept whatever its controllers do', () => {
    const axes = [
      { of: 'velocity', layers: [[41, 127]] },
      { of: 1, layers: [[64, 127]] },
    ] as const;
    const back = legato({ intervals: 2, overlap: 0.08, returns: true });
    const outline = [articulation('a', { ...c4, sampled: [60], layers: axes, legato: back })];
    // 60 is struck too softly for the layer, and comes back by the velocity of 62.
    const cue = [cc(0, 1, 0), on(500, 60, 30), on(900, 62, 100), off(1200, 62)];
    const zone = 'a C4 v41-127 cc1 64-127';
    expect(reached(outline, [...cue, cc(1500, 1, 100), off(1900, 60)])[zone]).toBe('plain');
    expect(reached(outline, [...cue, off(1900, 60)])[zone]).toBe('plain');
    // Struck hard enough it waits for the controller; what comes back from 62 has another velocity.
    expect(reached(outline, [cc(0, 1, 0), on(500, 60, 100), off(900, 60)])[zone]).toBeUndefined();
    const soft = [cc(0, 1, 0), on(500, 60, 100), on(900, 62, 30), off(1200, 62), off(1900, 60)];
    expect(reached(outline, soft)[zone]).toBe('stretch');
  });

  test('how many keys are held when one comes back: the one that went up is not', () => {
    const back = legato({ intervals: 2, overlap: 0.08, returns: true });
    const outline = (held: readonly [number, number]) => [
      articulation('a', { ...recorded, legato: back, when: conditions({ held }) }),
    ];
    const cue = [on(0, 60), on(500, 62), off(600, 62), off(900, 60)];
    expect(reached(outline([1, 1]), cue)['a C4 legato -2']).toBe('plain');
    expect(reached(outline([2, 9]), cue)['a C4 legato -2']).toBeUndefined();
  });

  test('nothing comes back to a key that is up, or out of reach', () => {
    const outline = sung({ intervals: 2, overlap: 0.08, returns: true });
    const back = 'a C4 legato -2';
    const down = [on(0, 60), on(500, 62), off(600, 60), off(900, 62)];
    expect(reached(outline, down)[back]).toBeUndefined();
    expect(reached(outline, [on(0, 60), on(500, 63), off(900, 63)])[back]).toBeUndefined();
  });
});

test('stretch: both neighbours of a key that nobody recorded', () => {
  const outline = [articulation('a', { ...line, sampled: [60, 64] })];
  expect(reached(outline, [on(0, 61)])).toEqual({ 'a C4': 'plain', 'a E4': 'stretch' });
});
