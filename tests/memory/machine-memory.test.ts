import { describe, expect, test } from 'vitest';
import type { Calibration, Line } from '../../src/memory/calibration.ts';
import { machineMemory } from '../../src/memory/machine-memory.ts';
import { instrumentWith, loadedOf, mask, playerOf, sampleOf } from './hand-made.ts';

/** Samples of 100, 200, 400 and 800 bytes, a zone each. */
const samples = [sampleOf('a', 50), sampleOf('b', 100), sampleOf('c', 200), sampleOf('d', 400)];
const instrument = instrumentWith(samples, [[0], [1], [2], [3]]);
const player = playerOf({ id: 'p', perCopy: 1_000, perZone: 10 });

const fitted = (lines: readonly [Line, ...Line[]], residual = 0): Calibration => ({
  basis: 'fitted',
  readings: 2,
  lines,
  residual,
  states: [],
});

const exactly = (bytes: number) => ({ bytes, low: bytes, high: bytes });

test('nothing on it', () => {
  expect(machineMemory([])).toEqual(exactly(0));
});

describe('instruments of one definition share their samples', () => {
  test('the same instrument twice', () => {
    // 2 x 1 000 + (2 + 3) x 10 + a, b, c, d once: 1 500.
    const all = [loadedOf(instrument, player, ['##..']), loadedOf(instrument, player, ['.###'])];
    expect(machineMemory(all)).toEqual(exactly(3_550));
  });

  test('by name, wherever the sample stands', () => {
    // Another preset of the same file: d first, then e of 1 600, then b.
    const other = instrumentWith(
      [sampleOf('d', 400), sampleOf('e', 800), sampleOf('b', 100)],
      [[0], [1], [2]],
    );
    // Two zones and three; b (200) is in both: 100 + 200 + 800 + 1 600.
    const all = [loadedOf(instrument, player, ['##..']), loadedOf(other, player, ['###'])];
    expect(machineMemory(all)).toEqual(exactly(2_000 + 50 + 2_700));
    // The same in the other order.
    expect(machineMemory([...all].reverse())).toEqual(exactly(4_750));
  });

  test('a third finds what the second brought', () => {
    const second = instrumentWith([sampleOf('e', 800)], [[0]]);
    const third = instrumentWith([sampleOf('a', 50), sampleOf('e', 800)], [[0], [1]]);
    const all = [
      loadedOf(instrument, player, ['#...']),
      loadedOf(second, player, ['#']),
      loadedOf(third, player, ['##']),
    ];
    // 3 x 1 000 + 4 x 10 + 100 + 1 600.
    expect(machineMemory(all)).toEqual(exactly(4_740));
  });

  test('two samples of one name are two, and are shared as two', () => {
    const twins = instrumentWith([...samples.slice(0, 2), samples[0]!], [[0], [1], [2]]);
    const free = playerOf({ id: 'free' });
    const both = loadedOf(twins, free, ['#.#']);
    // 2 x 100, and b of 200.
    expect(machineMemory([both, loadedOf(twins, free, ['.#.'])])).toEqual(exactly(400));
    expect(machineMemory([both, loadedOf(twins, free, ['##.'])])).toEqual(exactly(400));
  });

  test('what is not loaded shares nothing', () => {
    const all = [
      loadedOf(instrument, player, ['....']),
      loadedOf(instrument, player, ['#... x2']),
      loadedOf(instrument, player, []),
    ];
    // 2 x 1 000 + 2 x 10 + 100.
    expect(machineMemory(all)).toEqual(exactly(2_120));
  });
});

describe('what does not share', () => {
  /** Alone: 1 000 + 10 + 800. */
  const whole = loadedOf(instrument, player, ['...#']);

  test.each([
    ['another player', loadedOf(instrument, { ...player, id: 'q' }, ['...#'])],
    ['another definition', loadedOf({ ...instrument, sha256: 'other' }, player, ['...#'])],
    ['a player that shares nothing', loadedOf(instrument, { ...player, shares: 'copy' }, ['...#'])],
  ])('%s', (_, other) => {
    expect(machineMemory([whole, other])).toEqual(exactly(3_620));
  });

  test('copies of an instrument that shares nothing', () => {
    const alone = { ...player, shares: 'copy' } as const;
    const all = [loadedOf(instrument, alone, ['...#']), loadedOf(instrument, alone, ['...# x2'])];
    expect(machineMemory(all)).toEqual(exactly(5_430));
  });
});

describe('with readings', () => {
  test('a shared sample costs the highest factor x load', () => {
    const all = [
      loadedOf(instrument, player, ['##..'], fitted([{ fixed: 500, factor: 1.5 }])),
      loadedOf(instrument, player, ['.##.'], fitted([{ fixed: 0, factor: 2 }])),
    ];
    // 500 + 1.5 x 1 020 + 2 x 1 020, and a by 1.5, b by 2, c by 2: 150 + 400 + 800.
    expect(machineMemory(all)).toEqual(exactly(500 + 1_530 + 2_040 + 1_350));
    expect(machineMemory([...all].reverse())).toEqual(exactly(5_420));
  });

  test('of three the dearest is counted, whichever comes first', () => {
    const by = (factor: number) =>
      loadedOf(instrument, playerOf({ id: 'p' }), ['...#'], fitted([{ fixed: 0, factor }]));
    for (const factors of [
      [1, 2, 3],
      [3, 1, 2],
      [2, 3, 1],
    ]) {
      expect(machineMemory(factors.map(by))).toEqual(exactly(2_400));
    }
  });

  test('the range is that of all ways to choose a line for each', () => {
    const open = fitted([
      { fixed: 0, factor: 2 },
      { fixed: 100, factor: 1 },
    ]);
    const free = playerOf({ id: 'p' });
    const one = loadedOf(instrument, free, ['...#'], open);
    // One sample of 800 for both. Likely 2 x 800. Both shifted: 200 + 800. One of each: 100 + 1 600.
    expect(machineMemory([one, one])).toEqual({ bytes: 1_600, low: 1_000, high: 1_700 });
    // A third that is only computed: likely as before; the others shifted; one of them shifted.
    const plain = loadedOf(instrument, free, ['..##']);
    // c of 400 is in the third alone.
    expect(machineMemory([one, plain, one])).toEqual({ bytes: 2_000, low: 1_400, high: 2_100 });
  });

  test('of very many the range is too wide rather than too narrow, and found at once', () => {
    const open = fitted([
      { fixed: 0, factor: 2 },
      { fixed: 10, factor: 1 },
    ]);
    const one = loadedOf(instrument, playerOf({ id: 'p' }), ['...#'], open);
    const many = (count: number) => machineMemory(Array.from({ length: count }, () => one));
    // Likely 2 x 800. Eight, one by one: all shifted 8 x 10 + 800; all but one 7 x 10 + 1 600.
    expect(many(8)).toEqual({ bytes: 1_600, low: 880, high: 1_670 });
    // Forty have 2 ^ 40 ways, from 40 x 10 + 800 to 39 x 10 + 1 600. The last 32 count as 0 and 800 at
    // the low end, as 10 and 1 600 at the high end.
    expect(many(40)).toEqual({ bytes: 1_600, low: 880, high: 2_000 });
  });

  test('residuals add up, for each copy', () => {
    const loose = fitted([{ fixed: 0, factor: 1 }], 30);
    const free = playerOf({ id: 'p' });
    const all = [
      loadedOf(instrument, free, ['..##'], loose),
      loadedOf(instrument, free, ['...# x2'], loose),
    ];
    // 1 200 once, 3 x 30 either way.
    expect(machineMemory(all)).toEqual({ bytes: 1_200, low: 1_110, high: 1_290 });
  });

  test('a reading holds for an instrument that shares with no other', () => {
    const read: Calibration = {
      basis: 'fitted',
      readings: 1,
      lines: [{ fixed: 0, factor: 2 }],
      residual: 100,
      states: [{ zones: mask('...#'), bytes: 1_700 }],
    };
    const free = playerOf({ id: 'p' });
    const one = loadedOf(instrument, free, ['...#'], read);
    expect(machineMemory([one])).toEqual(exactly(1_700));
    expect(machineMemory([one, loadedOf(instrument, free, ['....'], read)])).toEqual(
      exactly(1_700),
    );
    expect(machineMemory([one, one])).toEqual({ bytes: 1_600, low: 1_400, high: 1_800 });
  });
});
