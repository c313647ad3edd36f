import { describe, expect, test } from 'vitest';
import type { Calibration, Line } from '../../src/memory/calibration.ts';
import { memoryOf, partMemory } from '../../src/memory/loaded-memory.ts';
import { instrumentWith, loadedOf, mask, playerOf, sampleOf } from './hand-made.ts';

/** Samples of 100, 200, 400 and 800 bytes; zone 0: a; 1: a and b; 2: c; 3: d. */
const instrument = instrumentWith(
  [sampleOf('a', 50), sampleOf('b', 100), sampleOf('c', 200), sampleOf('d', 400)],
  [[0], [0, 1], [2], [3]],
);
const shared = playerOf({ shares: 'machine', perCopy: 1_000, perZone: 10 });
const unshared = playerOf({ shares: 'copy', perCopy: 1_000, perZone: 10 });

const fitted = (
  lines: readonly [Line, ...Line[]],
  over: Partial<Extract<Calibration, { basis: 'fitted' }>> = {},
): Calibration => ({ basis: 'fitted', readings: 2, lines, residual: 0, states: [], ...over });

const exactly = (bytes: number) => ({ bytes, low: bytes, high: bytes });

describe('computed', () => {
  test.each([
    // One copy: 1 000 + 10 a zone + samples once each.
    [['#...'], 1_110], // 1 000 + 10 + 100
    [['##..'], 1_320], // 1 000 + 20 + 100 + 200: both zones use a
    [['####'], 2_540], // 1 000 + 40 + 1 500
    [['....'], 0], // not loaded
    [[], 0],
    // Three shared copies: 3 x 1 000 + 3 x 20 + 300.
    [['##.. x3'], 3_360],
    // Copies that differ share too what they have in common: 2 x 1 000 + 10 x 3 + 300.
    [['#...', '##..'], 2_330],
    [['....', '##..'], 1_320],
  ])('shared, %j', (copies, bytes) => {
    const memory = memoryOf(loadedOf(instrument, shared, copies));
    expect(memory).toEqual({ ...exactly(bytes), basis: 'computed' });
  });

  test.each([
    [['##..'], 1_320],
    [['##.. x3'], 3_960], // 3 x 1 320
    [['#...', '##..'], 2_430], // 1 110 + 1 320
    [['.... x5', '...#'], 1_810], // 1 000 + 10 + 800
  ])('unshared, %j', (copies, bytes) => {
    const memory = memoryOf(loadedOf(instrument, unshared, copies));
    expect(memory).toEqual({ ...exactly(bytes), basis: 'computed' });
  });

  test('streamed heads', () => {
    // Heads of 150 bytes of samples of 100, 200, 400 and 800: 100 + 3 x 150.
    const player = playerOf({ loads: 'streamed', head: { unit: 'bytes', bytes: 150 } });
    expect(memoryOf(loadedOf(instrument, player, ['####'])).bytes).toBe(550);
  });

  test('a sample twice in one zone counts once', () => {
    const twice = instrumentWith([sampleOf('a', 50)], [[0, 0]]);
    expect(memoryOf(loadedOf(twice, playerOf({}), ['#'])).bytes).toBe(100);
  });

  test('two samples of one name are two', () => {
    const twins = instrumentWith([sampleOf('a', 50), sampleOf('a', 50)], [[0], [1]]);
    expect(memoryOf(loadedOf(twins, playerOf({}), ['##'])).bytes).toBe(200);
  });
});

describe('fitted', () => {
  const line: Line = { fixed: 5_000, factor: 1.5 };

  test.each([
    // Unshared: 5 000 + 1.5 x 1 320 a copy.
    [unshared, ['##..'], 6_980],
    [unshared, ['##.. x2'], 13_960],
    [unshared, ['##..', '....'], 6_980],
    // 6 980 + 5 000 + 1.5 x 1 110.
    [unshared, ['##..', '#...'], 13_645],
    // Shared: 2 x (5 000 + 1.5 x (1 000 + 20)) + 1.5 x 300.
    [shared, ['##.. x2'], 13_510],
  ])('%o, %j', (player, copies, bytes) => {
    const memory = memoryOf(loadedOf(instrument, player, copies, fitted([line])));
    expect(memory).toEqual({ ...exactly(bytes), basis: 'fitted' });
  });

  test('half a byte is rounded up, once', () => {
    // 0.5 x 1 110 = 555; 0.25 x 1 110 = 277.5 -> 278, and two copies 555.
    const quarter = fitted([{ fixed: 0, factor: 0.25 }]);
    expect(memoryOf(loadedOf(instrument, unshared, ['#...'], quarter)).bytes).toBe(278);
    expect(memoryOf(loadedOf(instrument, unshared, ['#... x2'], quarter)).bytes).toBe(555);
  });

  test('the range is that of the lines', () => {
    // X = 1 320: likely 2 640, shifted 1 320 + 500 = 1 820.
    const open = fitted([
      { fixed: 0, factor: 2 },
      { fixed: 500, factor: 1 },
    ]);
    const memory = memoryOf(loadedOf(instrument, unshared, ['##..'], open));
    expect(memory).toEqual({ bytes: 2_640, low: 1_820, high: 2_640, basis: 'fitted' });
    // Two copies of X = 1 110: likely 2 x 2 220, shifted 2 x 1 610.
    const small = memoryOf(loadedOf(instrument, unshared, ['#... x2'], open));
    expect(small).toEqual({ bytes: 4_440, low: 3_220, high: 4_440, basis: 'fitted' });
  });

  test('the residual widens it for each copy', () => {
    const loose = fitted([line], { residual: 100 });
    expect(memoryOf(loadedOf(instrument, unshared, ['##.. x2'], loose))).toEqual({
      bytes: 13_960,
      low: 13_760,
      high: 14_160,
      basis: 'fitted',
    });
    expect(memoryOf(loadedOf(instrument, shared, ['##.. x2'], loose))).toMatchObject({
      low: 13_310,
      high: 13_710,
    });
  });

  test('never below nothing', () => {
    const loose = fitted([{ fixed: 0, factor: 1 }], { residual: 5_000 });
    expect(memoryOf(loadedOf(instrument, unshared, ['#...'], loose))).toMatchObject({
      bytes: 1_110,
      low: 0,
      high: 6_110,
    });
  });
});

describe('read off', () => {
  const calibration = fitted([{ fixed: 0, factor: 2 }], {
    residual: 7,
    states: [
      { zones: mask('##..'), bytes: 3_000 },
      { zones: mask('####'), bytes: 6_000 },
      { zones: mask('....'), bytes: 400 },
    ],
  });
  const memory = (player: typeof shared, copies: readonly string[]) =>
    memoryOf(loadedOf(instrument, player, copies, calibration));

  test('a copy in a state that was read is the reading', () => {
    expect(memory(unshared, ['##..'])).toEqual({ ...exactly(3_000), basis: 'read' });
    expect(memory(shared, ['####'])).toEqual({ ...exactly(6_000), basis: 'read' });
    expect(memory(shared, ['####', '....'])).toEqual({ ...exactly(6_000), basis: 'read' });
  });

  test('unshared copies are added up', () => {
    expect(memory(unshared, ['##.. x2', '####'])).toEqual({ ...exactly(12_000), basis: 'read' });
  });

  test('a copy that was not read makes it fitted, and it alone brings the residual', () => {
    // 3 000 + 2 x 1 110, and 7 either way.
    expect(memory(unshared, ['##..', '#...'])).toEqual({
      bytes: 5_220,
      low: 5_213,
      high: 5_227,
      basis: 'fitted',
    });
  });

  test('several copies that share samples were never read', () => {
    // 2 x 2 x (1 000 + 20) + 2 x 300, and 2 x 7 either way.
    expect(memory(shared, ['##.. x2'])).toEqual({
      bytes: 4_680,
      low: 4_666,
      high: 4_694,
      basis: 'fitted',
    });
  });

  test('what is not loaded is not the empty copy that was read', () => {
    expect(memory(unshared, ['....'])).toEqual({ ...exactly(0), basis: 'computed' });
  });

  test('the range of a copy that was not read does not reach into one that was', () => {
    // 3 000 for certain; the other is 2 x 1 110 and may be nothing.
    const loose = fitted([{ fixed: 0, factor: 2 }], {
      residual: 9_000,
      states: [{ zones: mask('##..'), bytes: 3_000 }],
    });
    expect(memoryOf(loadedOf(instrument, unshared, ['##..', '#...'], loose))).toEqual({
      bytes: 5_220,
      low: 3_000,
      high: 14_220,
      basis: 'fitted',
    });
  });

  test('of two readings of one state the first counts', () => {
    const twice = fitted([{ fixed: 0, factor: 2 }], {
      states: [
        { zones: mask('##..'), bytes: 3_000 },
        { zones: mask('##..'), bytes: 3_100 },
      ],
    });
    expect(memoryOf(loadedOf(instrument, unshared, ['##..'], twice)).bytes).toBe(3_000);
  });
});

describe('a part of what is loaded', () => {
  test.each([
    // Zones 0 and 1: 2 x 10 + 300, however many copies are there for themselves.
    [shared, ['####'], '##..', 320],
    // Only what is loaded of it: zone 0.
    [shared, ['#.##'], '##..', 110],
    [shared, ['..##'], '##..', 0],
    // Zones in each copy, samples once: 3 x 20 + 300.
    [shared, ['#### x3'], '##..', 360],
    // Both in each copy: 3 x 320, and 110 for the copy with zone 0 alone.
    [unshared, ['#### x3', '#...'], '##..', 1_070],
  ])('%o, %j, %s', (player, copies, part, bytes) => {
    expect(partMemory(loadedOf(instrument, player, copies), mask(part))).toBe(bytes);
  });

  test('by the likely factor, without the fixed part', () => {
    const open = fitted([
      { fixed: 9_000, factor: 1.25 },
      { fixed: 0, factor: 3 },
    ]);
    // 1.25 x 110 = 137.5.
    expect(partMemory(loadedOf(instrument, shared, ['####'], open), mask('#...'))).toBe(138);
  });
});
