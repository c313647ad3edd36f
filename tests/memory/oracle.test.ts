import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calibrate } from '../../src/memory/calibrate.ts';
import type { Figure } from '../../src/memory/figure.ts';
import type { LoadedInstrument } from '../../src/memory/loaded.ts';
import { memoryOf } from '../../src/memory/loaded-memory.ts';
import { machineMemory } from '../../src/memory/machine-memory.ts';
import type { ZoneMask } from '../../src/memory/zone-mask.ts';
import type { Player } from '../../src/template/player.ts';
import {
  figure,
  fit,
  machine as oracleMachine,
  type Bytes,
  type CopyZones,
  type MemoryInstrument,
  type MemoryPlayer,
} from '../oracle/memory.ts';
import { instrumentWith, reading } from './hand-made.ts';
import { copies, definition, player, zoneMask } from './random-loaded.ts';

/** Instruments with readings against the rules written down without any haste for speed. */

const zonesOf = (zones: ZoneMask): number[] => [...zones.keys()].filter((z) => zones[z] === 1);

const headOf = ({ head }: Player): MemoryPlayer['head'] => {
  if (head === null) return null;
  return head.unit === 'seconds' ? { milliseconds: Math.round(head.seconds * 1_000) } : head;
};

interface Case {
  readonly loaded: LoadedInstrument;
  readonly instrument: MemoryInstrument;
  readonly copies: CopyZones;
}

/** The readings are of articulations made for the purpose, one for each mask. */
const caseOf = (
  { samples, zones, sha256 }: LoadedInstrument['instrument'],
  by: Player,
  readings: readonly { readonly zones: ZoneMask; readonly bytes: number }[],
  masks: LoadedInstrument['copies'],
): Case => {
  const instrument = instrumentWith(
    samples,
    zones.map((zone) => zone.samples),
    { sha256 },
    readings.map((each, i) => ({ name: `state ${String(i)}`, zones: zonesOf(each.zones) })),
  );
  const shown = readings.map(({ bytes }, i) => reading(`state ${String(i)}`, bytes));
  const { calibration } = calibrate(instrument, by, shown, null);
  return {
    loaded: { instrument, player: by, calibration, copies: masks },
    instrument: {
      sha256,
      player: {
        id: by.id,
        head: headOf(by),
        width: by.width === 'source' ? null : by.width,
        perZone: by.perZone,
        perCopy: by.perCopy,
        shares: by.shares,
      },
      samples: Object.fromEntries(samples.map((sample) => [sample.name, sample])),
      zones: zones.map((zone) => zone.samples.map((s) => samples[s]!.name)),
      readings: readings.map((each) => ({ zones: zonesOf(each.zones), bytes: each.bytes })),
    },
    copies: masks.flatMap(({ zones: mask, count }) =>
      Array.from({ length: count }, () => zonesOf(mask)),
    ),
  };
};

const readings = fc.array(fc.record({ zones: zoneMask, bytes: fc.nat(40_000_000) }), {
  maxLength: 3,
});

/** Shared copies have the same zones, so there is one entry of them. */
const copiesFor = ({ shares }: Player) =>
  shares === 'copy' ? copies : copies.map((all) => all.slice(0, 1));

const cases: fc.Arbitrary<readonly Case[]> = fc
  .tuple(definition(3), player)
  .chain(([instruments, by]) =>
    fc.tuple(
      ...instruments.map((instrument) =>
        fc
          .tuple(fc.constantFrom(by, by, { ...by, id: 'q' }), readings)
          .chain(([one, shown]) =>
            copiesFor(one).map((masks) => caseOf(instrument, one, shown, masks)),
          ),
      ),
    ),
  );

/** Sums in another order may end on another side of half a byte. */
const expectSame = (ours: Figure, theirs: Bytes): void => {
  expect(Math.abs(ours.bytes - theirs.likely)).toBeLessThanOrEqual(1);
  expect(Math.abs(ours.low - theirs.low)).toBeLessThanOrEqual(1);
  expect(Math.abs(ours.high - theirs.high)).toBeLessThanOrEqual(1);
};

describe('against the rules', () => {
  test('readings', () => {
    fc.assert(
      fc.property(cases, (all) => {
        for (const { loaded, instrument } of all) {
          const { calibration } = loaded;
          if (calibration.basis === 'computed') continue;
          const points = calibration.states.map(({ zones, bytes }) => ({
            x: memoryOf({
              ...loaded,
              calibration: { basis: 'computed' },
              copies: [{ zones, count: 1 }],
            }).bytes,
            y: bytes,
          }));
          expect(points.map(({ y }) => y)).toEqual(instrument.readings.map(({ bytes }) => bytes));
          const { lines, residual } = fit(points);
          expect(calibration.lines).toHaveLength(lines.length);
          calibration.lines.forEach(({ fixed, factor }, i) => {
            expect(fixed).toBeCloseTo(lines[i]!.fixed, 3);
            expect(factor).toBeCloseTo(lines[i]!.factor, 9);
          });
          expect(calibration.residual).toBeCloseTo(residual, 3);
        }
      }),
      { numRuns: 300 },
    );
  });

  test('instruments', () => {
    fc.assert(
      fc.property(cases, (all) => {
        for (const one of all) {
          const theirs = figure(one.instrument, one.copies);
          const ours = memoryOf(one.loaded);
          expectSame(ours, theirs);
          expect(ours.basis).toBe(theirs.basis);
        }
      }),
      { numRuns: 500 },
    );
  });

  test('machines', () => {
    fc.assert(
      fc.property(cases, (all) => {
        expectSame(machineMemory(all.map(({ loaded }) => loaded)), oracleMachine(all, null));
      }),
      { numRuns: 500 },
    );
  });
});
