import fc from 'fast-check';
import { computed } from '../../src/memory/calibration.ts';
import type { LoadedInstrument } from '../../src/memory/loaded.ts';
import { memoryOf } from '../../src/memory/loaded-memory.ts';
import { machineMemory } from '../../src/memory/machine-memory.ts';
import type { PlacedInstrument } from '../../src/memory/placement/placement-types.ts';
import { instrumentWith, playerOf, sampleOf } from './hand-made.ts';
import { calibration, copies, definition, player } from './random-loaded.ts';

export interface PlacementCase {
  readonly instruments: readonly PlacedInstrument[];
  readonly budgets: readonly (number | null)[];
}

export const highOf = (
  { instruments }: Pick<PlacementCase, 'instruments'>,
  machines: readonly number[],
  machine: number,
): number =>
  machineMemory(instruments.filter((_, i) => machines[i] === machine).map(({ loaded }) => loaded))
    .high;

/** As it is, or in the very state that its player's display was read in. */
const maybeRead = (one: LoadedInstrument): fc.Arbitrary<LoadedInstrument> => {
  const { calibration: by, copies: all } = one;
  const [first] = all;
  if (by.basis === 'computed' || first === undefined) return fc.constant(one);
  return fc.option(fc.nat(20_000_000), { nil: null }).map((bytes) => {
    if (bytes === null) return one;
    const { zones } = first;
    const states = [{ zones, bytes }];
    return { ...one, calibration: { ...by, states }, copies: [{ zones, count: 1 }] };
  });
};

const loadedOf = (calibrated: typeof calibration): fc.Arbitrary<readonly LoadedInstrument[]> =>
  fc.tuple(definition(5), definition(3), player).chain(([some, others, one]) =>
    fc.tuple(
      ...[...some, ...others.map((other) => ({ ...other, sha256: 'other' }))].map((instrument) =>
        fc
          .record({
            instrument: fc.constant(instrument),
            player: fc.constantFrom<typeof one>(
              one,
              one,
              { ...one, id: 'q' },
              { ...one, id: 'r', shares: 'copy' },
            ),
            calibration: calibrated,
            copies,
          })
          .chain(maybeRead),
      ),
    ),
  );

/** Eight instruments of two definitions on three machines, with budgets about what is on them. */
export const placementCase = (
  calibrated: typeof calibration = fc.oneof(fc.constant(computed), calibration),
): fc.Arbitrary<PlacementCase> =>
  fc
    .record({
      all: loadedOf(calibrated),
      homes: fc.array(fc.nat(2), { minLength: 8, maxLength: 8 }),
      parts: fc.array(fc.option(fc.integer({ min: 30, max: 140 }), { freq: 8 }), {
        minLength: 3,
        maxLength: 3,
      }),
    })
    .map(({ all, homes, parts }) => {
      const instruments = all.map((loaded, i): PlacedInstrument => ({
        loaded,
        home: homes[i]!,
        bytes: memoryOf(loaded).bytes,
      }));
      const third = machineMemory(all).high / 3;
      const highs = parts.map((_, m) => highOf({ instruments }, homes, m));
      const budgets = parts.map((part, m) =>
        part === null ? null : Math.floor(((highs[m]! + third) / 2) * (part / 100)),
      );
      return { instruments, budgets };
    });

/**
 * Many instruments on machines of which the first has too much.
 *
 * @param of how many instruments there are of each definition
 * @param spare budgets, as parts of what all takes on one machine, evenly divided
 */
export const manyInstruments = (
  count: number,
  machines: number,
  of: number,
  spare: number,
): PlacementCase => {
  // A fixed row of numbers that looks like none (Park and Miller's generator).
  let state = 20_261_126;
  const next = (below: number): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
  const instruments = Array.from({ length: count }, (_, i): PlacedInstrument => {
    const samples = Array.from({ length: 12 }, (__, s) =>
      sampleOf(`sample ${s}`, 2_000_000 + 997 * ((Math.floor(i / of) * 131 + s * 17) % 60_000)),
    );
    const instrument = instrumentWith(
      samples,
      samples.map((__, s) => [s]),
      { sha256: `definition ${Math.floor(i / of)}` },
    );
    const zones = Uint8Array.from(samples, () => (next(3) > 0 ? 1 : 0));
    zones[0] = 1;
    const loaded: LoadedInstrument = {
      instrument,
      player: playerOf({ id: 'p', perCopy: 1_000_000, perZone: 300 }),
      calibration: computed,
      copies: [{ zones, count: 1 + next(2) }],
    };
    return {
      loaded,
      home: next(3) === 0 ? 0 : next(machines),
      bytes: memoryOf(loaded).bytes,
    };
  });
  const all = machineMemory(instruments.map(({ loaded }) => loaded)).high;
  return {
    instruments,
    budgets: Array.from({ length: machines }, () => Math.floor((all / machines) * spare)),
  };
};
