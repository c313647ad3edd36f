import { describe, expect, test } from 'vitest';
import { withArticulation } from '../../../src/instruments/fixed-articulation.ts';
import { switchFindings } from '../../../src/keep/switch-findings.ts';
import { cc, off, on, usageOf } from '../../playback/hand-made.ts';
import { anyTime, articulation, built, key, legato, reached, releases } from './build.ts';

/** Expected values follow from the design, section 8, by hand. 480 ticks are half a second here. */
const middle = [[60, 72]] as const;

describe('what chooses', () => {
  const sustain = articulation('sustain', { choice: key(24), keys: middle });
  const tremolo = articulation('tremolo', { choice: key(25), keys: middle });

  test('switches latch', () => {
    const both = built(sustain, tremolo);
    expect(reached(both, [on(0, 25), off(1, 25), on(10, 60)])).toEqual(['tremolo C4-C5']);
    expect(reached(both, [on(10, 60)])).toEqual([
      ...['sustain C4-C5: no-switch', 'tremolo C4-C5: no-switch'],
    ]);
  });

  test('alone, nothing has to choose', () => {
    expect(reached(built(sustain), [on(0, 60)])).toEqual(['sustain C4-C5']);
    expect(reached(built(articulation('a', { keys: middle })), [on(0, 60)])).toEqual(['a C4-C5']);
  });

  test('none sounds always, a player picks always, what is not known may be any', () => {
    const some = built(
      sustain,
      articulation('always', { choice: { kind: 'none' }, keys: middle }),
      articulation('picked', { choice: { kind: 'player' }, keys: middle }),
      articulation('open', { keys: middle }),
    );
    expect(reached(some, [on(0, 24), on(10, 60)])).toEqual([
      ...['sustain C4-C5', 'always C4-C5', 'picked C4-C5', 'open C4-C5: no-switch'],
    ]);
    expect(some.findings.map(({ code }) => code)).toContain('outline-no-switch');
  });

  test('a route that names an articulation plays it plainly', () => {
    const some = built(sustain, articulation('open', { keys: middle }));
    const fixed = { ...some, program: withArticulation(some, 1) };
    expect(reached(fixed, [on(0, 60)])).toEqual(['open C4-C5']);
  });

  test('switches written with another middle C are told', () => {
    const both = built(
      articulation('sustain', { choice: key(24), keys: middle, legato: legato({ returns: null }) }),
      articulation('tremolo', { choice: key(25), keys: middle }),
    );
    const cue = usageOf(both, [on(0, 36), off(1, 36), on(10, 60), on(20, 37), off(21, 37)]);
    expect(switchFindings(both, [cue])).toMatchObject([
      { code: 'switch-octave-off', args: { expected: [24, 25], seen: [36, 37], octaves: 1 } },
    ]);
    expect(switchFindings(both, [usageOf(both, [on(0, 24), off(1, 24), on(10, 60)])])).toEqual([]);
  });

  test('so are those that the range reaches down to then, where they stand apart', () => {
    const low = [[24, 72]] as const;
    const both = built(
      articulation('sustain', { choice: key(12), keys: low }),
      articulation('tremolo', { choice: key(13), keys: low }),
    );
    const found = (...keys: readonly number[]) =>
      switchFindings(both, [
        usageOf(
          both,
          keys.flatMap((played, i) => [on(10 * i, played), off(10 * i + 5, played)]),
        ),
      ]);
    expect(found(24, 40, 25, 44)).toMatchObject([
      { code: 'switch-octave-off', args: { expected: [12, 13], seen: [24, 25], octaves: 1 } },
    ]);
    // One low note, or a line that goes on from there, is music.
    expect(found(24, 40, 44)).toEqual([]);
    expect(found(24, 25, 27, 44)).toEqual([]);
    expect(found(12, 24, 25, 44)).toEqual([]);
  });
});

describe('when', () => {
  const soft = (when: Partial<typeof anyTime>): ReturnType<typeof built> =>
    built(articulation('a', { keys: middle, when: { ...anyTime, ...when } }));

  test('velocity', () => {
    expect(reached(soft({ velocity: [100, 127] }), [on(0, 60, 99)])).toEqual([]);
    expect(reached(soft({ velocity: [100, 127] }), [on(0, 60, 100)])).toEqual(['a C4-C5']);
  });

  test('a controller at the note-on, not behind it', () => {
    const one = soft({ controllers: [{ number: 4, range: [64, 127] }] });
    expect(reached(one, [cc(0, 4, 64), on(10, 60)])).toEqual(['a C4-C5']);
    expect(reached(one, [cc(0, 4, 63), on(10, 60), cc(20, 4, 90)])).toEqual([]);
  });

  test('held: this key counts', () => {
    const two = soft({ held: [2, 2] });
    expect(reached(two, [on(0, 60)])).toEqual([]);
    expect(reached(two, [on(0, 60), on(10, 64)])).toEqual(['a C4-C5']);
    expect(reached(two, [on(0, 60), off(10, 60), on(20, 64)])).toEqual([]);
    const one = soft({ held: [1, 1] });
    expect(reached(one, [on(0, 60)])).toEqual(['a C4-C5']);
  });

  test('pressure', () => {
    expect(reached(soft({ pressure: [1, 127] }), [on(0, 60)])).toEqual([]);
    expect(reached(soft({ pressure: [0, 10] }), [on(0, 60)])).toEqual(['a C4-C5']);
  });
});

describe('releases', () => {
  const one = (event: 'release' | 'note-off' | null): ReturnType<typeof built> =>
    built(articulation('a', { keys: middle, releases: releases({ event }) }));
  const pedal = [cc(0, 64, 127), on(5, 60), off(10, 60)];

  test('where the pedal holds the note', () => {
    expect(reached(one('release'), pedal)).toEqual(['a C4-C5', 'a C4-C5 release: pedal-held']);
    expect(reached(one('note-off'), pedal)).toEqual(['a C4-C5', 'a C4-C5 release']);
    expect(reached(one(null), pedal)).toEqual([
      ...['a C4-C5', 'a C4-C5 release: pedal-held or stretch'],
    ]);
  });
});

describe('a coarse articulation that a switch chooses', () => {
  const one = (given: Parameters<typeof articulation>[1], events: Parameters<typeof reached>[1]) =>
    reached(
      built(
        articulation('a', { choice: key(24), keys: middle, sampled: [60] }),
        articulation('b', { choice: key(25), keys: middle, ...given }),
      ),
      events,
    ).find((name) => name.startsWith('b '));
  /** Struck as `a`, let go as `b`. */
  const later = [on(0, 24), off(1, 24), on(10, 60), on(20, 25), off(21, 25), off(30, 60)];

  test('may hold what sounds when a key goes up, by the switch of then', () => {
    expect(one({}, later)).toBe('b C4-C5: stretch');
    expect(one({ sampled: [60] }, later)).toBeUndefined();
    expect(one({}, [on(0, 24), off(1, 24), on(10, 60), off(15, 60), on(20, 25)])).toBeUndefined();
  });

  test('when the key goes up, or the pedal', () => {
    expect(one({}, [cc(0, 64, 127), ...later])).toBe('b C4-C5: stretch');
    const pedal = [cc(0, 64, 127), on(1, 24), off(2, 24), on(10, 60), off(20, 60), on(30, 25)];
    expect(one({}, [...pedal, off(31, 25), cc(40, 64, 0)])).toBe('b C4-C5: stretch');
  });

  test('by the velocity of the note; not where more is asked for', () => {
    const when = (given: Partial<typeof anyTime>) => ({ when: { ...anyTime, ...given } });
    // Notes here have velocity 100.
    expect(one(when({ velocity: [1, 100] }), later)).toBe('b C4-C5: stretch');
    expect(one(when({ velocity: [101, 127] }), later)).toBeUndefined();
    expect(one(when({ held: [0, 9] }), later)).toBeUndefined();
    expect(one(when({ pressure: [0, 127] }), later)).toBeUndefined();
    const controllers = [{ number: 4, range: [0, 127] }] as const;
    expect(one(when({ controllers }), later)).toBeUndefined();
  });
});

describe('key switches', () => {
  const both = (keys: Parameters<typeof articulation>[1], held: Partial<typeof anyTime>) =>
    built(
      articulation('a', {
        ...{ choice: key(24), keys: [[60, 60]], sampled: [60] },
        legato: legato({ intervals: 2, overlap: 0.1 }),
        when: { ...anyTime, ...held },
      }),
      articulation('b', { choice: key(25), sampled: [60], ...keys }),
    );
  /** 24 chooses between a key and its successor, and stays down. */
  const between = [on(0, 58), on(10, 24), on(20, 60)];
  const silent = { keys: [[60, 60]] } as const;
  const playing = { keys: [[24, 60]] } as const;

  test('are not the key before where nothing plays them', () => {
    expect(reached(both(silent, {}), between)).toEqual(['a C4', 'a C4 legato +2']);
    expect(reached(both(playing, {}), between)).toContain('a C4 legato +2: stretch');
  });

  test('are not held where nothing plays them', () => {
    expect(reached(both(silent, { held: [2, 2] }), between)).toContain('a C4');
    expect(reached(both(silent, { held: [3, 3] }), between)).toEqual([]);
    expect(reached(both(playing, { held: [3, 3] }), between)).toContain('a C4');
    // No range says that they are played.
    expect(reached(both({ keys: null }, { held: [2, 2] }), between)).toContain('a C4');
  });

  test('are not another key that is held', () => {
    const any = (keys: readonly (readonly [number, number])[]): readonly string[] =>
      reached(
        built(
          articulation('a', { choice: key(24), keys: middle, legato: legato({ overlap: 0.1 }) }),
          articulation('b', { choice: key(25), keys }),
        ),
        [on(0, 24), on(10, 60)],
      );
    expect(any(middle)).toEqual(['a C4-C5']);
    expect(any([[24, 72]])).toContain('a C4-C5 legato');
  });
});

describe('legato', () => {
  const line = (over: Parameters<typeof legato>[0]): ReturnType<typeof built> =>
    built(
      articulation('a', {
        keys: middle,
        sampled: [60, 61, 62, 63, 64],
        stretch: 'nearest',
        legato: legato(over),
      }),
    );
  const ofLegato = (all: readonly string[]): readonly string[] =>
    all.filter((name) => name.includes('legato'));
  const transitions = (
    over: Parameters<typeof legato>[0],
    events: Parameters<typeof reached>[1],
  ): readonly string[] => ofLegato(reached(line(over), events));

  test('from the key before, while it is held', () => {
    const over = { intervals: 3, overlap: 0 };
    expect(transitions(over, [on(0, 60), on(10, 62), off(11, 60)])).toEqual(['a D4 legato +2']);
    expect(transitions(over, [on(0, 62), on(10, 60), off(11, 62)])).toEqual(['a C4 legato -2']);
    expect(transitions(over, [on(0, 60), on(10, 64)])).toEqual([]);
    expect(transitions(over, [on(0, 60), off(9, 60), on(10, 62)])).toEqual([]);
  });

  test('always with its own zones', () => {
    const both = reached(line({ intervals: 2, overlap: 0 }), [on(0, 60), on(10, 62)]);
    expect(both).toEqual(['a C4', 'a D4', 'a D4 legato +2']);
  });

  test('from another held key, in doubt', () => {
    const over = { intervals: 3, overlap: 0 };
    expect(transitions(over, [on(0, 60), on(10, 61), on(20, 63)])).toEqual([
      ...['a C#4 legato +1', 'a D#4 legato +2', 'a D#4 legato +3: stretch'],
    ]);
  });

  test('within the overlap a key that was let go counts as held', () => {
    // 480 ticks a quarter at 120: 96 ticks are 100 ms.
    const over = { intervals: 3, overlap: 0.1 };
    const gap = (ticks: number): readonly string[] =>
      transitions(over, [on(0, 60), off(480, 60), on(480 + ticks, 62)]);
    expect(gap(95)).toEqual(['a D4 legato +2']);
    expect(gap(96)).toEqual(['a D4 legato +2']);
    expect(gap(97)).toEqual([]);
  });

  test('overlap not known: the key before in doubt, held or not', () => {
    const over = { intervals: 3, overlap: null };
    expect(transitions(over, [on(0, 60), on(10, 62)])).toEqual(['a D4 legato +2']);
    expect(transitions(over, [on(0, 60), off(5, 60), on(4_800, 62)])).toEqual([
      'a D4 legato +2: stretch',
    ]);
    // Further back only where it is held still.
    expect(transitions(over, [on(0, 60), off(5, 60), on(10, 72), off(11, 72), on(20, 62)])).toEqual(
      [],
    );
  });

  test('intervals not known: one zone for all', () => {
    const coarse = (overlap: number | null, events: Parameters<typeof reached>[1]) =>
      ofLegato(
        reached(built(articulation('a', { keys: middle, legato: legato({ overlap }) })), events),
      );
    expect(coarse(0, [on(0, 60), on(10, 72)])).toEqual(['a C4-C5 legato']);
    expect(coarse(0, [on(0, 60), off(5, 60), on(10, 72)])).toEqual([]);
    expect(coarse(null, [on(0, 60)])).toEqual([]);
    expect(coarse(null, [on(0, 60), off(5, 60), on(10, 72)])).toEqual(['a C4-C5 legato: stretch']);
    expect(coarse(null, [on(0, 60), on(10, 72)])).toEqual(['a C4-C5 legato']);
  });

  test('returns: the key that is still held, by the transition and its own zones', () => {
    const back = [on(0, 60), on(10, 62), off(20, 62), off(30, 60)];
    const over = { intervals: 3, overlap: 0 };
    expect(transitions({ ...over, returns: false }, back)).toEqual(['a D4 legato +2']);
    expect(transitions({ ...over, returns: true }, back)).toEqual([
      ...['a C4 legato -2', 'a D4 legato +2'],
    ]);
    expect(transitions({ ...over, returns: null }, back)).toEqual([
      ...['a C4 legato -2: stretch', 'a D4 legato +2'],
    ]);
    // No key is left: nothing to go back to.
    expect(transitions({ ...over, returns: true }, [on(0, 60), off(10, 60)])).toEqual([]);
    // The window is for keys that follow, not for those that are gone.
    expect(
      transitions({ intervals: 3, overlap: 10, returns: true }, [
        ...[on(0, 60), on(10, 62), off(20, 60), off(30, 62)],
      ]),
    ).toEqual(['a D4 legato +2', 'a D4 legato +2'].slice(1));
  });

  test('what comes back takes the velocity of the note that went, or any in doubt', () => {
    const layered = built(
      articulation('a', {
        keys: middle,
        layers: [
          {
            by: 'velocity',
            count: 3,
            ranges: [
              [1, 40],
              [41, 80],
              [81, 127],
            ],
          },
        ],
        legato: legato({ returns: true, overlap: 0 }),
      }),
    );
    expect(reached(layered, [on(0, 60, 100), on(10, 62, 20), off(20, 62)])).toEqual([
      ...['a C4-C5 v1-40', 'a C4-C5 v41-80: stretch', 'a C4-C5 v81-127', 'a C4-C5 legato'],
    ]);
  });

  test('what comes back is kept whatever a controller that fades it does', () => {
    const ranges = [
      [0, 63],
      [64, 127],
    ] as const;
    const faded = built(
      articulation('a', {
        keys: middle,
        layers: [{ by: 1, count: 2, ranges }],
        legato: legato({ returns: true, overlap: 0, layers: [{ by: 1, count: 2, ranges }] }),
      }),
    );
    const cue = [cc(0, 1, 10), on(10, 60), on(20, 62), off(30, 62), off(40, 60)];
    expect(reached(faded, cue)).toEqual([
      ...['a C4-C5 cc1 0-63', 'a C4-C5 cc1 64-127'],
      ...['a C4-C5 cc1 0-63 legato', 'a C4-C5 cc1 64-127 legato'],
    ]);
    // Nothing comes back: 62 is alone.
    expect(
      reached(faded, [cc(0, 1, 10), on(10, 60), off(15, 60), on(20, 62), off(30, 62)]),
    ).toEqual(['a C4-C5 cc1 0-63']);
  });
});
