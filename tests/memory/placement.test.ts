import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { computed } from '../../src/memory/calibration.ts';
import { placeInstruments } from '../../src/memory/placement/place-instruments.ts';
import type { PlacedInstrument } from '../../src/memory/placement/placement-types.ts';
import { instrumentWith, loadedOf, playerOf, sampleOf } from './hand-made.ts';
import { highOf, manyInstruments, placementCase, type PlacementCase } from './random-placement.ts';
import { runs, share } from '../runs.ts';

interface Best {
  readonly state: 'fits' | 'placed' | 'impossible';
  readonly bytes: number;
  readonly moved: number;
}

const movedIn = ({ instruments }: PlacementCase, machines: readonly number[]) => {
  const moved = instruments.filter(({ home }, i) => machines[i] !== home);
  return { bytes: moved.reduce((sum, { bytes }) => sum + bytes, 0), moved: moved.length };
};

const fits = (each: PlacementCase, machines: readonly number[]): boolean =>
  each.budgets.every((budget, m) => budget === null || highOf(each, machines, m) <= budget);

/** By the definition alone: every instrument on every machine. */
const bruteForce = (each: PlacementCase): Best => {
  const { instruments, budgets } = each;
  const count = instruments.length;
  // By machine and by who is on it, as bits.
  const within = budgets.map((budget, m) =>
    Array.from(
      { length: 2 ** count },
      (_, bits) =>
        budget === null ||
        highOf(
          each,
          instruments.map((__, i) => ((bits >> i) & 1 ? m : -1)),
          m,
        ) <= budget,
    ),
  );
  let best: Best = { state: 'impossible', bytes: 0, moved: 0 };
  for (let way = 0; way < budgets.length ** count; way++) {
    const machines = instruments.map(
      (_, i) => Math.floor(way / budgets.length ** i) % budgets.length,
    );
    const crews = budgets.map(() => 0);
    machines.forEach((m, i) => (crews[m]! |= 1 << i));
    if (!crews.every((crew, m) => within[m]![crew])) continue;
    // What nothing is loaded of stays at home.
    if (instruments.some(({ loaded, home }, i) => machines[i] !== home && isEmpty(loaded)))
      continue;
    const { bytes, moved } = movedIn(each, machines);
    const isBetter =
      best.state === 'impossible' ||
      bytes < best.bytes ||
      (bytes === best.bytes && moved < best.moved);
    if (isBetter) best = { state: moved === 0 ? 'fits' : 'placed', bytes, moved };
  }
  return best;
};

const isEmpty = ({ copies }: PlacedInstrument['loaded']): boolean =>
  !copies.some(({ zones }) => zones.includes(1));

const check = async (each: PlacementCase): Promise<Best['state']> => {
  const best = bruteForce(each);
  const { state, machines, gap } = await placeInstruments(each.instruments, each.budgets);
  expect({ state, ...movedIn(each, machines), gap }).toEqual({ ...best, gap: 0 });
  if (state !== 'impossible') expect(fits(each, machines)).toBe(true);
  return best.state;
};

describe('as good as the best of all placements', () => {
  test.each([
    ['computed', fc.constant(computed)],
    ['with readings', undefined],
  ])(
    '%s',
    async (_, calibrated) => {
      const met = { fits: 0, placed: 0, impossible: 0 };
      await fc.assert(
        fc.asyncProperty(placementCase(calibrated), async (each) => {
          met[await check(each)] += 1;
        }),
        { numRuns: runs(100, 60), seed: 7 },
      );
      // Else this would say little.
      expect(met.placed).toBeGreaterThan(share(20));
      expect(met.impossible).toBeGreaterThan(share(10));
    },
    120_000,
  );
});

describe('by hand', () => {
  const player = playerOf({ id: 'p' });
  /** Of 1 000 000, 2 000 000, 4 000 000 and 8 000 000 bytes, a zone each. */
  const samples = [1, 2, 4, 8].map((size) => sampleOf(`of ${size}`, size * 500_000));
  const zones = [[0], [1], [2], [3]];
  const placed = (home: number, picture: string, sha256: string): PlacedInstrument => {
    const loaded = loadedOf(instrumentWith(samples, zones, { sha256 }), player, [picture]);
    const bytes = [...picture].reduce((sum, zone, z) => sum + (zone === '#' ? 2 ** z * 1e6 : 0), 0);
    return { loaded, home, bytes };
  };

  test('nothing there, or all within', async () => {
    expect(await placeInstruments([], [0, null])).toEqual({ state: 'fits', machines: [], gap: 0 });
    const one = [placed(1, '..#.', 'a')];
    const fits = { state: 'fits', machines: [1], gap: 0 };
    expect(await placeInstruments(one, [0, 4e6])).toEqual(fits);
    expect(await placeInstruments(one, [null, null])).toEqual(fits);
  });

  test('a byte decides', async () => {
    const both = [placed(0, '..#.', 'a'), placed(0, '.#..', 'b')];
    expect((await placeInstruments(both, [6e6, 0])).state).toBe('fits');
    const moved = { state: 'placed', machines: [0, 1], gap: 0 };
    expect(await placeInstruments(both, [6e6 - 1, 2e6])).toEqual(moved);
    // The small one no longer fits there; the large one neither.
    expect(await placeInstruments(both, [6e6 - 1, 2e6 - 1])).toEqual({
      state: 'impossible',
      machines: [0, 0],
      gap: 0,
    });
  });

  test('of equal bytes, the fewest instruments', async () => {
    // Over by 4 000 000: one of as much, or three that come to it.
    const all = [
      ...['a', 'b'].map((name) => placed(0, '#...', name)),
      placed(0, '.#..', 'c'),
      placed(0, '..#.', 'd'),
    ];
    expect(await placeInstruments(all, [4e6, null])).toMatchObject({ machines: [0, 0, 0, 1] });
  });

  test('who shares goes where the samples are', async () => {
    // Machine 1 has 1 000 000 to spare: what is there already costs nothing more.
    const all = [placed(0, '#..#', 'a'), placed(0, '..#.', 'b'), placed(1, '...#', 'a')];
    expect(await placeInstruments(all, [4e6, 9e6])).toMatchObject({
      state: 'placed',
      machines: [1, 0, 1],
    });
  });

  test('what nothing is loaded of stays, wherever it is', async () => {
    const all = [placed(0, '....', 'a'), placed(0, '..#.', 'b'), placed(2, '....', 'c')];
    expect(await placeInstruments(all, [0, null, 0])).toEqual({
      state: 'placed',
      machines: [0, 1, 2],
      gap: 0,
    });
  });
});

describe('many', () => {
  test('sixty on five machines: fits, little is left open, twice the same, nothing printed', async () => {
    const each = manyInstruments(60, 5, 1, 1.1);
    const said = (['log', 'info', 'warn', 'error'] as const).map((name) =>
      vi.spyOn(console, name).mockReturnValue(),
    );
    const written = [process.stdout, process.stderr].map((stream) => vi.spyOn(stream, 'write'));
    const first = await placeInstruments(each.instruments, each.budgets);
    const calls = [...said, ...written].map(({ mock }) => mock.calls.length);
    vi.restoreAllMocks();
    expect(calls).toEqual([0, 0, 0, 0, 0, 0]);
    expect(first.state).toBe('placed');
    expect(fits(each, first.machines)).toBe(true);
    // What is above any budget has to move at least.
    const { bytes } = movedIn(each, first.machines);
    const homes = each.instruments.map(({ home }) => home);
    const over = each.budgets.reduce<number>(
      (sum, budget, m) => sum + Math.max(0, highOf(each, homes, m) - budget!),
      0,
    );
    // The program lets four bytes pass on each machine.
    expect(bytes - first.gap).toBeGreaterThanOrEqual(over - 4 * 5);
    expect(first.gap).toBeLessThan(bytes / 1_000);
    expect(await placeInstruments(each.instruments, each.budgets)).toEqual(first);
  });

  test('forty that share by fours', async () => {
    const each = manyInstruments(40, 4, 4, 1.3);
    const { state, machines } = await placeInstruments(each.instruments, each.budgets);
    expect(state).toBe('placed');
    expect(fits(each, machines)).toBe(true);
  });
});
