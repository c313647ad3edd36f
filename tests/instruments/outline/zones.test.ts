import { describe, expect, test } from 'vitest';
import { InputError } from '../../../src/terms/errors.ts';
import { cc, off, on } from '../../playback/hand-made.ts';
import { articulation, built, key, legato, names, reached, releases } from './build.ts';

/** What an outline stands for. Expected values are worked out by hand from the design, section 8. */
describe('zones and their names', () => {
  test('level 0: one zone over each range', () => {
    expect(names(built(articulation('sustain', { keys: [[43, 76]] })))).toEqual(['sustain G2-E5']);
    const parts = articulation('hits', {
      keys: [
        [60, 60],
        [36, 40],
      ],
    });
    expect(names(built(parts))).toEqual(['hits C4', 'hits C2-E2']);
  });

  test('keys left out: all but the key switches', () => {
    const both = built(
      articulation('sustain', { choice: key(24) }),
      articulation('tremolo', { choice: key(25) }),
    );
    expect(names(both)).toEqual([
      ...['sustain C-1-B0', 'sustain D1-G9', 'tremolo C-1-B0', 'tremolo D1-G9'],
    ]);
  });

  test('order: sampled keys, layers with the first axis slowest, takes, microphones', () => {
    const sustain = articulation('sustain', {
      keys: [[48, 53]],
      sampled: [48, 51],
      layers: [
        {
          by: 'velocity',
          count: 2,
          ranges: [
            [1, 40],
            [41, 127],
          ],
        },
        { by: 1, count: 2, ranges: null },
      ],
      roundRobins: { count: 2, borrow: 0 },
      microphones: ['close', 'hall'],
    });
    const all = names(built(sustain));
    expect(all).toHaveLength(2 * 2 * 2 * 2 * 2);
    expect(all.slice(0, 5)).toEqual([
      'sustain C3 v1-40 layer 1 of 2 rr1 close',
      'sustain C3 v1-40 layer 1 of 2 rr1 hall',
      'sustain C3 v1-40 layer 1 of 2 rr2 close',
      'sustain C3 v1-40 layer 1 of 2 rr2 hall',
      'sustain C3 v1-40 layer 2 of 2 rr1 close',
    ]);
    expect(all[16]).toBe('sustain D#3 v1-40 layer 1 of 2 rr1 close');
  });

  test('releases and transitions come behind, and say so', () => {
    const sustain = articulation('sustain', {
      sampled: [48],
      releases: releases({ roundRobins: { count: 2, borrow: 0 } }),
      legato: legato({ intervals: 2 }),
    });
    expect(names(built(sustain))).toEqual([
      'sustain C3',
      'sustain C3 rr1 release',
      'sustain C3 rr2 release',
      'sustain C3 legato -2',
      'sustain C3 legato -1',
      'sustain C3 legato +1',
      'sustain C3 legato +2',
    ]);
    expect(names(built(articulation('a', { keys: [[60, 61]], legato: legato() })))).toEqual([
      ...['a C4-C#4', 'a C4-C#4 legato'],
    ]);
  });

  test('borrowed takes are no zones', () => {
    const sustain = articulation('s', { sampled: [48, 51], roundRobins: { count: 4, borrow: 2 } });
    expect(names(built(sustain))).toEqual(['s C3 rr1', 's C3 rr2', 's D#3 rr1', 's D#3 rr2']);
  });

  test('two zones of one description are told apart', () => {
    const twice = articulation('s', {
      keys: [
        [60, 62],
        [60, 62],
      ],
    });
    expect(names(built(twice))).toEqual(['s C4-D4', 's C4-D4 (2)']);
  });

  test('counted before they are made', () => {
    const huge = articulation('s', {
      roundRobins: { count: 1_000_000_000, borrow: 0 },
      legato: legato({ intervals: 127 }),
    });
    expect(() => built(huge)).toThrow(InputError);
    expect(() => built(huge)).toThrow('outline-too-many-zones');
    // 1 range x 24 intervals x 8 000 takes: 192 001 zones, each with a start for each of 128 keys.
    const wide = articulation('s', {
      legato: legato({ intervals: 12, roundRobins: { count: 8_000, borrow: 0 }, returns: true }),
    });
    expect(() => built(wide)).toThrow('outline-too-many-starts');
  });

  test('articulations know their switch and their layers', () => {
    const { articulations } = built(
      articulation('sustain', {
        choice: key(12),
        keys: [[60, 60]],
        layers: [{ by: 'velocity', count: 2, ranges: null }],
      }),
      articulation('long', { choice: { kind: 'none' }, keys: [[60, 60]] }),
    );
    expect(articulations).toEqual([
      {
        name: 'sustain',
        switch: 'C0 (12)',
        layers: [
          { velocity: [1, 63], controllers: [], zones: [0] },
          { velocity: [64, 127], controllers: [], zones: [1] },
        ],
      },
      {
        name: 'long',
        switch: null,
        layers: [{ velocity: [1, 127], controllers: [], zones: [2] }],
      },
    ]);
  });
});

describe('stretch: which keys a recorded one answers', () => {
  const sampled = [48, 52];
  const at = (stretch: 'up' | 'down' | 'nearest' | null, played: number): readonly string[] =>
    reached(built(articulation('s', { keys: [[40, 60]], sampled, stretch })), [on(0, played)]);

  test('up', () => {
    expect([40, 48, 51, 52, 60].map((played) => at('up', played)[0])).toEqual([
      ...['s C3', 's C3', 's C3', 's E3', 's E3'],
    ]);
    expect(at('up', 51)).toEqual(['s C3']);
  });

  test('down', () => {
    expect([40, 48, 49, 52, 60].map((played) => at('down', played)[0])).toEqual([
      ...['s C3', 's C3', 's E3', 's E3', 's E3'],
    ]);
  });

  test('nearest: the middle is the lower one, the upper in doubt', () => {
    expect(at('nearest', 49)).toEqual(['s C3']);
    expect(at('nearest', 50)).toEqual(['s C3', 's E3: stretch']);
    expect(at('nearest', 51)).toEqual(['s E3']);
  });

  test('left out: both neighbours, but for a key that was recorded', () => {
    expect(at(null, 49)).toEqual(['s C3', 's E3: stretch']);
    expect(at(null, 51)).toEqual(['s C3: stretch', 's E3']);
    expect(at(null, 48)).toEqual(['s C3']);
    expect(at(null, 40)).toEqual(['s C3']);
    expect(at(null, 60)).toEqual(['s E3']);
    expect(at(null, 39)).toEqual([]);
  });

  test('a recorded key that none can use is a zone all the same', () => {
    // Of 36, 48 and 60 the middle one alone serves 47-49.
    const instrument = built(
      articulation('s', { keys: [[47, 49]], sampled: [36, 48, 60], stretch: 'nearest' }),
    );
    expect(names(instrument)).toEqual(['s C2', 's C3', 's C4']);
    for (const played of [0, 36, 60, 127]) expect(reached(instrument, [on(0, played)])).toEqual([]);
    expect(reached(instrument, [on(0, 47)])).toEqual(['s C3']);
    // Its player loads it with the articulation.
    expect(new Set(instrument.program.starts.map(({ zone }) => zone)).size).toBe(3);
  });

  test('borrowed takes: recordings of the keys around, of an odd one on both sides', () => {
    const many = (borrow: number, played: number): readonly string[] =>
      reached(
        built(
          articulation('s', {
            sampled: [48, 50, 52, 54, 56],
            stretch: 'up',
            roundRobins: { count: 5, borrow },
          }),
        ),
        [on(0, played)],
      ).map((name) => name.split(' ')[1]!);
    const keysOf = (borrow: number): readonly string[] => [...new Set(many(borrow, 52))];
    expect(keysOf(0)).toEqual(['E3']);
    expect(keysOf(1)).toEqual(['D3', 'E3', 'F#3']);
    expect(keysOf(2)).toEqual(['D3', 'E3', 'F#3']);
    expect(keysOf(3)).toEqual(['C3', 'D3', 'E3', 'F#3', 'G#3']);
    expect(keysOf(4)).toEqual(['C3', 'D3', 'E3', 'F#3', 'G#3']);
  });

  test('nothing said of takes: recordings of the next keys, in doubt', () => {
    const given = { sampled: [48, 50, 52, 54, 56], stretch: 'up' } as const;
    const unsaid = { count: 1, borrow: null } as const;
    const around = built(articulation('s', { ...given, roundRobins: unsaid }));
    expect(reached(around, [on(0, 52)])).toEqual(['s D3: stretch', 's E3', 's F#3: stretch']);
    expect(reached(around, [on(0, 48)])).toEqual(['s C3', 's D3: stretch']);
    const own = built(articulation('s', { ...given, roundRobins: { count: 1, borrow: 0 } }));
    expect(reached(own, [on(0, 52)])).toEqual(['s E3']);
    // Takes of releases and transitions are said, or not, by themselves.
    const parts = built(
      articulation('s', { ...given, releases: releases({ roundRobins: unsaid }) }),
    );
    expect(reached(parts, [on(0, 52), off(10, 52)])).toEqual([
      ...['s E3', 's D3 release: stretch', 's E3 release', 's F#3 release: stretch'],
    ]);
    // Of ranges there is nothing around.
    const coarse = built(
      articulation('s', {
        keys: [
          [48, 50],
          [51, 56],
        ],
        roundRobins: unsaid,
      }),
    );
    expect(reached(coarse, [on(0, 52)])).toEqual(['s D#3-G#3']);
  });
});

describe('layers', () => {
  test('by velocity, with a gap and an overlap', () => {
    const sustain = articulation('s', {
      keys: [[60, 60]],
      layers: [
        {
          by: 'velocity',
          count: 3,
          ranges: [
            [1, 40],
            [50, 100],
            [90, 127],
          ],
        },
      ],
    });
    const at = (velocity: number): readonly string[] =>
      reached(built(sustain), [on(0, 60, velocity)]);
    expect(at(40)).toEqual(['s C4 v1-40']);
    expect(at(45)).toEqual([]);
    expect(at(95)).toEqual(['s C4 v50-100', 's C4 v90-127']);
  });

  test('borders that are not printed: an even split, every layer in doubt', () => {
    const sustain = articulation('s', {
      keys: [[60, 60]],
      layers: [{ by: 'velocity', count: 3, ranges: null }],
    });
    // 127 in three parts: 1-42, 43-84, 85-127.
    const [low, middle, high] = ['s C4 layer 1 of 3', 's C4 layer 2 of 3', 's C4 layer 3 of 3'];
    const at = (velocity: number): readonly string[] =>
      reached(built(sustain), [on(0, 60, velocity)]);
    expect(at(42)).toEqual([low, `${middle}: stretch`, `${high}: stretch`]);
    expect(at(43)).toEqual([`${low}: stretch`, middle, `${high}: stretch`]);
    expect(at(85)).toEqual([`${low}: stretch`, `${middle}: stretch`, high]);
  });

  test('by controller: what it passes while the note sounds; borders not printed: any', () => {
    const ranges = [
      [0, 63],
      [64, 127],
    ] as const;
    const printed = articulation('s', { keys: [[60, 60]], layers: [{ by: 1, count: 2, ranges }] });
    expect(reached(built(printed), [cc(0, 1, 10), on(10, 60)])).toEqual(['s C4 cc1 0-63']);
    expect(reached(built(printed), [cc(0, 1, 10), on(10, 60), cc(20, 1, 90)])).toEqual([
      ...['s C4 cc1 0-63', 's C4 cc1 64-127'],
    ]);
    const even = articulation('s', {
      keys: [[60, 60]],
      layers: [{ by: 1, count: 2, ranges: null }],
    });
    expect(reached(built(even), [cc(0, 1, 10), on(10, 60)])).toEqual([
      ...['s C4 layer 1 of 2', 's C4 layer 2 of 2: stretch'],
    ]);
  });
});
