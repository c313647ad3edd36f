import fc from 'fast-check';
import { expect, test } from 'vitest';
import { keys } from '../../src/instruments/outline/reading/keys.ts';
import { parseOutline } from '../../src/instruments/outline/reading/parse-outline.ts';
import type {
  LayerAxis,
  Outline,
  OutlineArticulation,
} from '../../src/instruments/outline/outline.ts';
import { findingCodes, messageOf } from '../../src/report/messages.ts';
import { InputError } from '../../src/terms/errors.ts';
import type { Range } from '../../src/terms/range.ts';

const codes = new Set<string>(findingCodes);

/** The outline, or null for an input's own error; anything else is a failure. */
const outlineOf = (bytes: Uint8Array): Outline | null => {
  try {
    return parseOutline('outline.yaml', bytes).outline;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const found of [error.finding, ...error.others]) {
      expect(codes).toContain(found.code);
      expect(messageOf(found).message).not.toMatch(/undefined|NaN|\[object/u);
    }
    return null;
  }
};

const isRange = ([lo, hi]: Range): boolean => lo >= 0 && lo <= hi && hi <= 127;

const isWhole = (value: number, least: number, most: number): boolean =>
  Number.isInteger(value) && value >= least && value <= most;

const checkLayers = (layers: readonly LayerAxis[]): void => {
  expect(new Set(layers.map(({ by }) => by)).size).toBe(layers.length);
  for (const { by, count, ranges } of layers) {
    expect(by === 'velocity' || isWhole(by, 0, 127)).toBe(true);
    expect(isWhole(count, 1, 128)).toBe(true);
    if (ranges !== null) expect(ranges.length === count && ranges.every(isRange)).toBe(true);
  }
};

const checkPart = ({
  layers,
  roundRobins: { count, borrow },
  seconds,
  measured,
}: Pick<OutlineArticulation, 'layers' | 'roundRobins' | 'seconds' | 'measured'>): void => {
  checkLayers(layers);
  expect(isWhole(count, 1, 128) && isWhole(borrow ?? 0, 0, count - 1)).toBe(true);
  if (seconds !== null) expect(seconds > 0 && seconds <= 600).toBe(true);
  if (measured !== null) expect(measured.bytes).toBeGreaterThanOrEqual(0);
};

/** That no value is beyond what the contract promises. */
const checkOutline = ({ middleC, articulations }: Outline): void => {
  expect(isWhole(middleC, 2, 6)).toBe(true);
  expect(articulations.length).toBeGreaterThan(0);
  for (const one of articulations) {
    checkPart(one);
    if (one.releases !== null) checkPart(one.releases);
    if (one.legato !== null) checkPart(one.legato);
    expect((one.keys ?? [[0, 0] as const]).every(isRange)).toBe(true);
    const sampled = one.sampled ?? [];
    expect(sampled.every((key, i) => isWhole(key, 0, 127) && key > (sampled[i - 1] ?? -1))).toBe(
      true,
    );
    expect(one.microphones.length).toBeGreaterThan(0);
    expect(new Set(one.microphones).size).toBe(one.microphones.length);
    const { velocity, pressure, held, controllers } = one.when;
    for (const range of [velocity, pressure, held])
      if (range !== null) expect(isRange(range)).toBe(true);
    expect(
      controllers.every(({ number, range }) => isWhole(number, 0, 127) && isRange(range)),
    ).toBe(true);
  }
};

const check = (bytes: Uint8Array): boolean => {
  const outline = outlineOf(bytes);
  if (outline !== null) checkOutline(outline);
  return outline !== null;
};

test('random bytes give an error of the input, or an outline', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
      check(bytes);
    }),
    { numRuns: 500 },
  );
});

/** Values that belong somewhere in an outline, and some that belong nowhere. */
const value: fc.Arbitrary<unknown> = fc.letrec((tie) => ({
  any: fc.oneof(
    { depthSize: 'small', maxDepth: 4 },
    fc.constantFrom(
      ...[
        '?',
        null,
        'yes',
        'no',
        true,
        3,
        0,
        8,
        -1,
        0.5,
        200,
        'C4',
        'C2..C6 every 3',
        'G2-E5 | C6',
      ],
      ...['C0', 'none', 'program 5', 'cc 32: 0-20', 'channel 3', '1-40', '1-40|41-127', '80 ms'],
      ...['8 s', '48 kHz', '24 bit', 48_000, '420 MiB', 'player-decides', 'release', 'up', 'close'],
      ...['sustain', 'tremolo', '', ' ', '__proto__', 'every 0', '1e9', 'C4-C2'],
    ),
    fc.array(tie('any'), { maxLength: 4 }),
    fc.dictionary(tie('key') as fc.Arbitrary<string>, tie('any'), { maxKeys: 5 }),
  ),
  key: fc.constantFrom(
    ...new Set(Object.values(keys).flatMap((known) => Object.keys(known))),
    ...[
      'velocity',
      'cc1',
      'CC 1',
      '1',
      '127',
      '128',
      'sustain',
      'tremolo',
      '__proto__',
      'toString',
    ],
  ),
})).any;

/** What belongs behind each key of an articulation. */
const fitting: Readonly<Record<string, readonly unknown[]>> = {
  like: ['sustain', 'tremolo', '?'],
  switch: ['C0', 24, 'none', 'program 5', 'cc 32: 0-20', 'channel 3', '?'],
  keys: ['G2-E5', ['C2', 'E2-G2'], 60, '?'],
  sampled: ['C2..C6 every 3', ['C2', 40, 'C2'], 'C2|E2|G2', ['C2', '?']],
  stretch: ['up', 'down', 'nearest', '?'],
  layers: [3, [1, '2-40'], { velocity: 2, cc1: ['0-63', '?'] }, { cc1: '?' }, '1-2|3-4'],
  'round-robins': [4, { count: 3, borrow: 2 }, { count: '?' }, {}],
  seconds: [8, '800 ms', '?'],
  rate: ['44.1 kHz', 96_000],
  bits: [16, '24 bit'],
  channels: [1, 2],
  microphones: ['close', ['close', '?', 'tree', '?']],
  when: ['player-decides', { velocity: '1-2', controllers: { 1: 2, cc2: '?' }, held: 2 }],
  releases: ['yes', 1.2, { at: 'note-off', layers: 2 }, 'no', '?'],
  legato: ['yes', { intervals: 12, overlap: '80 ms', returns: 'no' }, '?'],
  measured: ['420 MiB', 0, '?'],
};

const fit = fc
  .subarray(Object.keys(fitting), { maxLength: 6 })
  .chain((names) =>
    fc.record(Object.fromEntries(names.map((name) => [name, fc.constantFrom(...fitting[name]!)]))),
  );

const articulation = fc.oneof(
  { weight: 40, arbitrary: fit },
  {
    weight: 1,
    arbitrary: fc.dictionary(fc.constantFrom(...Object.keys(keys.articulation)), value, {
      maxKeys: 3,
    }),
  },
  { weight: 1, arbitrary: value },
);

const document = fc.record(
  {
    'middle-c': fc.constantFrom('C4', 'C3', 'C5', 'C4', 'C3', 4),
    articulations: fc.dictionary(
      fc.constantFrom('sustain', 'tremolo', 'trill', 'mordent', '__proto__', 'Sustain'),
      articulation,
      { minKeys: 1, maxKeys: 4 },
    ),
    switches: fc.oneof(
      { weight: 1, arbitrary: value },
      { weight: 9, arbitrary: fc.constant({ from: 'C0', names: ['sustain', null, '?'] }) },
    ),
    microphones: fc.oneof(
      { weight: 1, arbitrary: value },
      { weight: 9, arbitrary: fc.constant(['close', 'tree']) },
    ),
    measured: fc.oneof(
      { weight: 1, arbitrary: value },
      { weight: 9, arbitrary: fc.constant({ empty: '0.6 GiB', full: '?' }) },
    ),
  },
  { requiredKeys: ['middle-c', 'articulations'] },
);

test('random outlines give an error of the input, or one within all limits', () => {
  let read = 0;
  fc.assert(
    fc.property(document, (json) => {
      // JSON is YAML.
      if (check(new TextEncoder().encode(JSON.stringify(json)))) read += 1;
    }),
    { numRuns: 500 },
  );
  // Otherwise nothing but errors would be looked at.
  expect(read).toBeGreaterThan(20);
});

const hostile: readonly (readonly [string, string])[] = [
  ['brackets', '['.repeat(500_000)],
  ['keys in brackets', '{a: '.repeat(200_000)],
  [
    'articulations',
    `middle-c: C4\narticulations:\n${Array.from({ length: 80_000 }, (_, i) => ` a${String(i)}:\n`).join('')}`,
  ],
  [
    'one long chain of faults',
    `middle-c: C4\narticulations:\n${Array.from({ length: 30_000 }, (_, i) => ` a${String(i)}: { like: b }\n`).join('')}`,
  ],
  [
    'a circle',
    `middle-c: C4\narticulations:\n${Array.from({ length: 30_000 }, (_, i) => ` a${String(i)}: { like: a${String((i + 1) % 30_000)} }\n`).join('')}`,
  ],
  ['borders', `middle-c: C4\narticulations: { a: { layers: [${'1-2,'.repeat(200_000)}] } }`],
  ['keys', `middle-c: C4\narticulations: { a: { sampled: [${'C2,'.repeat(200_000)}] } }`],
  ['a long text', `middle-c: C4\narticulations: { a: { keys: "${'C2|'.repeat(200_000)}" } }`],
  ['blanks', `middle-c: C4\narticulations: { a: { seconds: "8${' '.repeat(900_000)}x" } }`],
  ['digits', `middle-c: C4\narticulations: { a: { rate: "${'9'.repeat(900_000)}" } }`],
  [
    'a row',
    `middle-c: C4\nswitches: { from: 0, names: [${'a,'.repeat(300_000)}] }\narticulations: { a: ~ }`,
  ],
];

test.each(hostile)('%s: no hang', (_, yaml) => {
  const before = process.cpuUsage();
  outlineOf(new TextEncoder().encode(yaml));
  // Of a file of 1 MiB, which takes seconds; what grows with the square would take hours.
  expect(process.cpuUsage(before).user).toBeLessThan(100e6);
});
