import fc from 'fast-check';
import type { Instrument, Sample } from '../../src/instruments/instrument.ts';
import { computed, type Calibration, type Line } from '../../src/memory/calibration.ts';
import type { LoadedInstrument } from '../../src/memory/loaded.ts';
import type { Head, Player } from '../../src/template/player.ts';
import { instrumentWith, playerOf, sampleOf } from './hand-made.ts';

const zoneCount = 6;
const sampleCount = 8;

const sample = (name: string): fc.Arbitrary<Sample> =>
  fc
    .record({
      channels: fc.constantFrom(1, 2, 8),
      width: fc.constantFrom(2, 3, 4),
      rate: fc.constantFrom(44_100, 48_000, 96_000),
      present: fc.boolean().map((absent) => !absent),
    })
    .chain((over) => fc.nat(500_000).map((frames) => sampleOf(name, frames, over)));

/**
 * Instruments as if from one file: samples of one name are the same, each has them in an order of its
 * own and uses them as it likes.
 */
export const definition = (instruments: number): fc.Arbitrary<readonly Instrument[]> =>
  fc
    .tuple(...Array.from({ length: sampleCount }, (_, i) => sample(`sample ${String(i)}`)))
    .chain((samples) =>
      fc.array(
        fc
          .record({
            samples: fc.shuffledSubarray(samples, { minLength: 1 }),
            zones: fc.array(fc.array(fc.nat(sampleCount - 1), { maxLength: 3 }), {
              minLength: zoneCount,
              maxLength: zoneCount,
            }),
          })
          .map(({ samples: own, zones }) =>
            instrumentWith(
              own,
              zones.map((zone) => zone.map((i) => i % own.length)),
            ),
          ),
        { minLength: instruments, maxLength: instruments },
      ),
    );

const head: fc.Arbitrary<Head> = fc.oneof(
  fc.nat(400_000).map((bytes): Head => ({ unit: 'bytes', bytes })),
  fc.nat(100_000).map((frames): Head => ({ unit: 'frames', frames })),
  fc.nat(2_000).map((ms): Head => ({ unit: 'seconds', seconds: ms / 1_000 })),
);

export const player: fc.Arbitrary<Player> = fc
  .record({
    head: fc.option(head),
    width: fc.constantFrom('source' as const, 2, 3, 4),
    perZone: fc.constantFrom(0, 200),
    perCopy: fc.constantFrom(0, 12_582_912),
    shares: fc.constantFrom('copy' as const, 'machine' as const),
  })
  .map((over) => playerOf({ ...over, id: 'p', loads: over.head === null ? 'whole' : 'streamed' }));

export const zoneMask = fc
  .array(fc.constantFrom(0, 1), { minLength: zoneCount, maxLength: zoneCount })
  .map((zones) => Uint8Array.from(zones));

/** Likely lines have no negative part; others may be shifted below 0. */
const lines: fc.Arbitrary<readonly [Line, ...Line[]]> = fc
  .tuple(
    fc.record({ fixed: fc.nat(5_000_000), factor: fc.nat(300).map((n) => n / 100) }),
    fc.array(
      fc.record({
        fixed: fc.integer({ min: -5_000_000, max: 5_000_000 }),
        factor: fc.nat(300).map((n) => n / 100),
      }),
      { maxLength: 2 },
    ),
  )
  .map(([likely, others]) => [likely, ...others]);

export const calibration: fc.Arbitrary<Calibration> = fc.oneof(
  fc.constant(computed),
  fc.record({
    basis: fc.constant('fitted' as const),
    readings: fc.constant(2),
    lines,
    residual: fc.nat(1_000_000),
    states: fc.array(fc.record({ zones: zoneMask, bytes: fc.nat(50_000_000) }), { maxLength: 3 }),
  }),
);

export const copies = fc.array(
  fc.record({ zones: zoneMask, count: fc.integer({ min: 1, max: 4 }) }),
  { maxLength: 3 },
);

/** Instruments of one definition on one machine, with one player or two that differ in name. */
export const machine = (
  calibrated: fc.Arbitrary<Calibration> = calibration,
): fc.Arbitrary<readonly LoadedInstrument[]> =>
  fc.tuple(definition(3), player).chain(([instruments, one]) =>
    fc.tuple(
      ...instruments.map((instrument) =>
        fc.record({
          instrument: fc.constant(instrument),
          player: fc.constantFrom(one, one, { ...one, id: 'q' }),
          calibration: calibrated,
          copies,
        }),
      ),
    ),
  );
