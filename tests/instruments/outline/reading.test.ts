import { describe, expect, test } from 'vitest';
import { largestOutline } from '../../../src/instruments/outline/reading/parse-outline.ts';
import {
  articulationsOf,
  bytesOf,
  cases,
  codesOf,
  expectedOf,
  parse,
  printed,
} from './reading-cases.ts';

/**
 * What the terminal prints for each mistake that a person makes, and for what is none. A new folder
 * fails with the text that its `expected.txt` is to hold, once that has been read and found right.
 */
test.each(cases)('%s', (name) => {
  const text = printed(bytesOf(name));
  const expected = expectedOf(name);
  if (expected === null)
    throw new Error(`${name}/expected.txt is not there. It would be:\n${text}`);
  expect(text).toBe(expected);
});

test.each(cases)('%s is an error unless its name begins with good-', (name) => {
  expect((expectedOf(name) ?? '').startsWith('error[')).toBe(!name.startsWith('good-'));
});

const one = (yaml: string, top?: string) => articulationsOf(yaml, top)[0]!;

/** Without places, which differ where things are written differently. */
const plain = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (key, part: unknown) => (/^at$|At$/u.test(key) ? 0 : part)));

const nothing = {
  keys: null,
  sampled: null,
  stretch: null,
  layers: [],
  roundRobins: { count: 1, borrow: null },
  seconds: null,
  sound: { rate: null, bits: null, channels: null },
  microphones: [null],
  when: { velocity: null, controllers: [], pressure: null, held: null },
  releases: null,
  legato: null,
  measured: null,
};

describe('one meaning, several ways to write it', () => {
  test.each([
    ['layers: 3', 'layers: { velocity: 3 }'],
    ['layers: [1-40, 41-127]', 'layers: { velocity: [1-40, 41-127] }'],
    ['layers: "1-40 | 41-127"', 'layers: { Velocity: [1..40, 41–127] }'],
    ['layers: { cc1: 2 }', 'layers: { CC 1: 2 }'],
    ['layers: { 1: [0-63, 64-127] }', 'layers: { cc1: 0-63|64-127 }'],
    ['layers: { velocity: ["?", 41-127] }', 'layers: 2'],
    ['layers: { velocity: 3, cc1: "?" }', 'layers: 3'],
    ['round-robins: 4', 'round-robins: { count: 4, borrow: 0 }'],
    ['round-robins: 4', 'round-robins: { count: 4, borrow: "?" }'],
    ['seconds: 8', 'seconds: 8, round-robins: { count: "?", borrow: "?" }'],
    ['keys: G2-E5 | C6', 'keys: [G2-E5, C6]'],
    ['keys: G2-E5', 'keys: 43-76'],
    ['sampled: C2..C3 every 3', 'sampled: [C2, D#2, F#2, A2, C3]'],
    ['sampled: C2|E2|G2', 'sampled: [G2, 40, C2, E2]'],
    ['sampled: C2-E2', 'sampled: C2..E2 every 1'],
    ['seconds: 8', 'seconds: 8 s'],
    ['seconds: 0.8', 'seconds: 800 ms'],
    ['rate: 44100, bits: 24', 'rate: 44.1 kHz, bits: 24-bit'],
    ['releases: yes', 'releases: { at: "?" }'],
    ['releases: true', 'releases: {}'],
    ['releases: 1.2', 'releases: { seconds: 1200 ms }'],
    ['releases: 1.2 s', 'releases: { seconds: 1.2 }'],
    ['releases: no', 'releases: ~'],
    ['legato: yes', 'legato: { intervals: "?", overlap: ~, returns: "?" }'],
    ['legato: no', 'measured: "?"'],
    ['legato: { returns: yes }', 'legato: { returns: true }'],
    ['microphones: close', 'microphones: [close]'],
    ['when: { controllers: { 1: 64-127 } }', 'when: { controllers: { cc1: 64..127 } }'],
    ['when: { held: 2 }', 'when: { held: 2-2 }'],
    ['switch: C0', 'switch: 12'],
    ['switch: "?"', 'keys: ~'],
  ])('%s is %s', (short, long) => {
    expect(codesOf(`middle-c: C4\narticulations: { a: { ${short} } }`)).toEqual([]);
    expect(plain(one(`a: { ${short} }`))).toEqual(plain(one(`a: { ${long} }`)));
  });

  test('a name alone, a question mark and an empty group say nothing', () => {
    for (const all of articulationsOf('a: ~\nb: "?"\nc: {}\nd:')) {
      expect(all).toMatchObject({ ...nothing, choice: { kind: 'unknown' } });
    }
  });

  test('a range alone is where it is played', () => {
    expect(one('a: G2-E5')).toMatchObject({ ...nothing, keys: [[43, 76]] });
    // A single key is more likely its switch: nothing is guessed.
    expect(codesOf('middle-c: C4\narticulations: { a: C0 }')).toEqual(['yaml-value']);
  });
});

test('all that an articulation can say', () => {
  const { outline, findings } = parse(bytesOf('good-full'));
  expect(findings).toEqual([]);
  expect(outline).toMatchObject({
    middleC: 4,
    // 0.6 and 3.9 GiB to the byte, rounded half up.
    measured: { empty: { bytes: 644_245_094 }, full: { bytes: 4_187_593_114 } },
  });
  const [sustain, tremolo, staccato, runs, drone, effects, harmonics, mutes] =
    outline.articulations;
  expect(sustain).toMatchObject({
    name: 'sustain',
    at: { line: 9, column: 3 },
    // C-1 is key 0 where key 60 is C4.
    choice: { kind: 'switch', test: { kind: 'key', key: 0 } },
    choiceAt: { line: 6, column: 32 },
    keys: [
      [43, 76],
      [84, 84],
    ],
    keysAt: { line: 10, column: 11 },
    stretch: 'down',
    layers: [
      {
        by: 'velocity',
        count: 3,
        ranges: [
          [1, 40],
          [41, 90],
          [91, 127],
        ],
      },
      {
        by: 1,
        count: 2,
        ranges: [
          [0, 63],
          [64, 127],
        ],
      },
    ],
    roundRobins: { count: 4, borrow: 2 },
    seconds: 8,
    sound: { rate: 96_000, bits: 24, channels: 2 },
    microphones: ['close'],
    when: {
      velocity: [10, 127],
      controllers: [
        { number: 1, range: [64, 127] },
        { number: 11, range: [1, 127] },
      ],
      pressure: [1, 127],
      held: [2, 4],
    },
    releases: {
      event: 'release',
      layers: [{ by: 'velocity', count: 3, ranges: null }],
      roundRobins: { count: 2, borrow: 0 },
      seconds: 1.2,
      measured: { bytes: 90 * 2 ** 20, at: { line: 16 } },
    },
    legato: {
      intervals: 12,
      layers: [{ by: 'velocity', count: 2, ranges: null }],
      roundRobins: { count: 2, borrow: 0 },
      seconds: 0.6,
      overlap: 0.08,
      returns: true,
      measured: { bytes: 300 * 2 ** 20, at: { line: 17 } },
    },
    measured: { bytes: 1_288_490_189, at: { line: 21, column: 15 } },
  });
  // Each third key of the 49 from C2 to C6.
  expect(sustain!.sampled).toHaveLength(17);
  expect(sustain!.sampled!.slice(0, 3)).toEqual([36, 39, 42]);
  expect(tremolo).toMatchObject({
    choice: { kind: 'switch', test: { kind: 'key', key: 1 } },
    keys: sustain!.keys,
    keysAt: sustain!.keysAt,
    seconds: 6,
    sound: { rate: 96_000 },
    releases: null,
    legato: { intervals: 12, measured: null },
    measured: null,
  });
  expect(staccato).toMatchObject({
    // The third name is skipped.
    choice: { kind: 'switch', test: { kind: 'key', key: 3 } },
    sampled: [48, 52, 55],
    sound: { rate: 48_000, bits: 24, channels: 2 },
    microphones: ['close', 'tree', 'hall'],
  });
  expect(runs).toMatchObject({ choice: { kind: 'player' }, when: nothing.when });
  expect(drone).toMatchObject({ choice: { kind: 'none' }, releases: { event: null } });
  expect(effects).toMatchObject({
    choice: { kind: 'switch', test: { kind: 'controller', number: 32, range: [0, 20] } },
    releases: { seconds: 0.8 },
  });
  expect(harmonics).toMatchObject({ choice: { kind: 'unknown' }, keys: [[55, 88]] });
  expect(mutes).toMatchObject({ choice: { kind: 'unknown' }, keys: null, measured: null });
});

test('a question mark is not known, whatever holds for others', () => {
  const top = 'middle-c: C4\nrate: 48000\nseconds: 4';
  const all = articulationsOf(
    'a: { keys: G2-E5, layers: 3, releases: yes }\nb: { like: a, keys: "?", rate: "?", releases: "?" }',
    top,
  );
  expect(all[1]).toMatchObject({
    keys: null,
    seconds: 4,
    sound: { rate: null },
    layers: [{ count: 3 }],
    releases: null,
  });
});

test('like goes over any number of steps, and each says the last word', () => {
  const count = 20_000;
  const lines = Array.from({ length: count }, (_, i) =>
    i === 0 ? 'a0: { keys: G2-E5, seconds: 3 }' : `a${String(i)}: { like: A${String(i - 1)} }`,
  );
  lines[count - 1] = `a${String(count - 1)}: { like: a${String(count - 2)}, seconds: 5 }`;
  const all = articulationsOf(lines.toReversed().join('\n'));
  expect(all[0]).toMatchObject({ keys: [[43, 76]], seconds: 5 });
  expect(all[1]).toMatchObject({ keys: [[43, 76]], seconds: 3 });
});

test('the octave of the file moves every key name', () => {
  const yaml = 'a: { keys: C3-C4, sampled: C3, switch: C0 }';
  expect(one(yaml, 'middle-c: C3')).toMatchObject({
    keys: [[60, 72]],
    sampled: [60],
    choice: { test: { key: 24 } },
  });
});

test('an outline may be as long as the limit, and not longer', () => {
  const start = 'middle-c: C4\narticulations: { a: ~ }\n#';
  expect(codesOf(start + ' '.repeat(largestOutline - start.length))).toEqual([]);
  expect(codesOf(start + ' '.repeat(largestOutline + 1 - start.length))).toEqual([
    'outline-too-large',
  ]);
});
