/** Zones of outlines by hand: which there are, their order and names, and the keys they play. */
import { describe, expect, test } from 'vitest';
import { articulation, legato, releases, type OutlineArticulation } from './outline-data.ts';
import { zonesOf } from './outline-zones.ts';

const zones = (...articulations: readonly OutlineArticulation[]) => zonesOf({ articulations });
const names = (...all: readonly OutlineArticulation[]) => zones(...all).map(({ name }) => name);

/** `60 61?`: the keys that a zone plays, those under `stretch` with a question mark. */
const keysOf = (given: Partial<OutlineArticulation>) =>
  zones(articulation('a', { keys: [[55, 70]], ...given })).map(({ answers }) =>
    Array.from({ length: 128 }, (_, key) => key)
      .flatMap((key) => answers(key).map((doubts) => `${key}${doubts === 0 ? '' : '?'}`))
      .join(' '),
  );

describe('zones and names', () => {
  test('the names that the design gives as examples', () => {
    const velocity = { of: 'velocity', layers: [[1, 40]] } as const;
    expect(
      names(
        articulation('sustain', {
          ...{ keys: [[43, 76]], sampled: [48], layers: [velocity] },
          ...{ roundRobins: { count: 2, borrow: 0 }, microphones: ['close'] },
        }),
      ),
    ).toEqual(['sustain C3 v1-40 rr1 close', 'sustain C3 v1-40 rr2 close']);
    expect(names(articulation('sustain', { keys: [[43, 76]] }))).toEqual(['sustain G2-E5']);
    const three = articulation('sustain', { sampled: [48], legato: legato({ intervals: 3 }) });
    expect(names(three).at(-1)).toBe('sustain C3 legato +3');
  });

  test('sustain, then releases, then legato; microphones fastest, the first axis slowest', () => {
    const one = articulation('a', {
      sampled: [48, 51],
      layers: [
        { of: 'velocity', layers: 2 },
        { of: 1, layers: [[0, 63]] },
      ],
      releases: releases({ roundRobins: { count: 3, borrow: 1 } }),
      legato: legato({ intervals: 1 }),
      microphones: ['close', 'hall'],
    });
    const both = (name: string) => [name.replace('*', 'close'), name.replace('*', 'hall')];
    expect(names(one)).toEqual(
      [
        ...['C3', 'D#3'].flatMap((key) =>
          [1, 2].map((layer) => `a ${key} layer ${layer} of 2 cc1 0-63 *`),
        ),
        ...['C3', 'D#3'].flatMap((key) => [1, 2].map((take) => `a ${key} rr${take} * release`)),
        ...['C3', 'D#3'].flatMap((key) => ['-1', '+1'].map((by) => `a ${key} * legato ${by}`)),
      ].flatMap(both),
    );
  });

  test('borders that are not printed: an even split', () => {
    const values = (of: 'velocity' | number) =>
      zones(articulation('a', { keys: [[60, 60]], layers: [{ of, layers: 3 }] })).map(
        ({ layers }) => layers[0]!.values,
      );
    // floor(127 * 1 / 3) = 42, floor(127 * 2 / 3) = 84; floor(128 / 3) = 42, floor(256 / 3) = 85.
    expect(values('velocity')).toEqual([
      [1, 42],
      [43, 84],
      [85, 127],
    ]);
    expect(values(1)).toEqual([
      [0, 41],
      [42, 84],
      [85, 127],
    ]);
  });
});

/** Said to be recordings of their own keys alone. */
const ownTakes = { roundRobins: { count: 1, borrow: 0 } } as const;

describe('keys', () => {
  test('left out: all but the switches, in ranges', () => {
    const all = zones(articulation('a', { switch: { kind: 'key', key: 24 } }), articulation('b'));
    expect(all.map(({ name }) => name)).toEqual(['a C-1-B0', 'a C#1-G9', 'b C-1-B0', 'b C#1-G9']);
    expect(all.map(({ answers }) => answers(24))).toEqual([[], [], [], []]);
  });

  test.each<[OutlineArticulation['stretch'], string[]]>([
    // Sampled 60 and 64 between the playable 55 and 66; 62 is in the middle.
    ['up', ['55 56 57 58 59 60 61 62 63', '64 65 66']],
    ['down', ['55 56 57 58 59 60', '61 62 63 64 65 66']],
    ['nearest', ['55 56 57 58 59 60 61 62', '62? 63 64 65 66']],
    [null, ['55 56 57 58 59 60 61 62 63?', '61? 62? 63 64 65 66']],
  ])('stretch %s', (stretch, expected) => {
    expect(keysOf({ keys: [[55, 66]], sampled: [60, 64], stretch, ...ownTakes })).toEqual(expected);
  });

  test('a sampled key outside the range serves the keys near it, or none', () => {
    const sampled = [50, 58, 64, 70];
    expect(keysOf({ keys: [[60, 62]], sampled, stretch: 'up', ...ownTakes })).toEqual([
      ...['', '60 61 62', '', ''],
    ]);
  });

  test('nothing said of takes: recordings of the next keys may be played too', () => {
    const sampled = [60, 62, 64, 66];
    const given = { keys: [[60, 66]] as const, sampled, stretch: 'up' } as const;
    const own = ['60 61', '62 63', '64 65', '66'];
    expect(keysOf({ ...given, ...ownTakes })).toEqual(own);
    const unsaid = ['60 61 62? 63?', '60? 61? 62 63 64? 65?', '62? 63? 64 65 66?', '64? 65? 66'];
    expect(keysOf({ ...given, roundRobins: { count: 1, borrow: null } })).toEqual(unsaid);
    expect(keysOf({ ...given, roundRobins: { count: 4, borrow: 0 } })).toEqual(
      own.flatMap((keys) => [keys, keys, keys, keys]),
    );
  });

  test('nothing said of takes where none but coarse ranges are known: nothing around', () => {
    expect(
      keysOf({
        keys: [
          [60, 61],
          [63, 64],
        ],
        roundRobins: { count: 1, borrow: null },
      }),
    ).toEqual([...['60 61', '63 64']]);
  });

  test('borrowed takes: half of them from each side, the odd one from both', () => {
    const given = { keys: [[60, 66]] as const, sampled: [60, 62, 64, 66], stretch: 'up' } as const;
    const played = (count: number, borrow: number) =>
      keysOf({ ...given, roundRobins: { count, borrow } });
    const one = ['60 61 62 63', '60 61 62 63 64 65', '62 63 64 65 66', '64 65 66'];
    expect(played(2, 1)).toEqual(one);
    expect(played(3, 2)).toEqual(one);
    expect(played(4, 3)).toEqual([
      '60 61 62 63 64 65',
      '60 61 62 63 64 65 66',
      '60 61 62 63 64 65 66',
      '62 63 64 65 66',
    ]);
    expect(played(4, 2)).toEqual(one.flatMap((keys) => [keys, keys]));
  });
});
