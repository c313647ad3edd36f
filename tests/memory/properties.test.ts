import fc from 'fast-check';
import { expect, test } from 'vitest';
import { calibrate } from '../../src/memory/calibrate.ts';
import { computed } from '../../src/memory/calibration.ts';
import { computedCopy } from '../../src/memory/computed-load.ts';
import type { Figure } from '../../src/memory/figure.ts';
import type { LoadedInstrument } from '../../src/memory/loaded.ts';
import { memoryOf, partMemory } from '../../src/memory/loaded-memory.ts';
import { machineMemory } from '../../src/memory/machine-memory.ts';
import { loadBytes } from '../../src/memory/sample-load.ts';
import { reading } from './hand-made.ts';
import { calibration, copies, definition, machine, player, zoneMask } from './random-loaded.ts';

const instrument = definition(1).map(([only]) => only!);
const loaded = fc.record({ instrument, player, calibration, copies });
const uncalibrated = fc.constant(computed);

const withoutStates = (one: LoadedInstrument): LoadedInstrument =>
  one.calibration.basis === 'computed'
    ? one
    : { ...one, calibration: { ...one.calibration, states: [] } };

const isInOrder = ({ bytes, low, high }: Figure): boolean =>
  [low, bytes, high].every(Number.isInteger) && 0 <= low && low <= bytes && bytes <= high;

test('low, likely and high are whole bytes in this order', () => {
  fc.assert(
    fc.property(loaded, (one) => isInOrder(memoryOf(one))),
    { numRuns: 500 },
  );
  fc.assert(
    fc.property(machine(), (all) => isInOrder(machineMemory(all))),
    { numRuns: 500 },
  );
});

test('a machine with one instrument takes what the instrument takes', () => {
  fc.assert(
    fc.property(loaded, (one) => {
      expect(memoryOf(one)).toMatchObject(machineMemory([one]));
    }),
  );
});

test('sharing costs no more than not sharing', () => {
  fc.assert(
    fc.property(loaded, ({ player: any, ...one }) => {
      const by = (shares: 'copy' | 'machine'): number =>
        memoryOf({ ...one, calibration: computed, player: { ...any, shares } }).bytes;
      expect(by('machine')).toBeLessThanOrEqual(by('copy'));
    }),
  );
});

test('instruments of one definition take no less than any of them and no more than all', () => {
  fc.assert(
    fc.property(machine(), (any) => {
      // By their lines: where copies were read, one alone may be known better than the group.
      const all = any.map(withoutStates);
      const together = machineMemory(all);
      for (const end of ['bytes', 'low', 'high'] as const) {
        const each = all.map((one) => memoryOf(one)[end]);
        // The low end takes all residuals off at once.
        if (end !== 'low') expect(together[end]).toBeGreaterThanOrEqual(Math.max(...each));
        // Three figures rounded by themselves may be 2 bytes below their sum, rounded once.
        expect(together[end]).toBeLessThanOrEqual(each.reduce((a, b) => a + b) + 2);
      }
    }),
    { numRuns: 500 },
  );
});

test('the same, to the byte, without readings', () => {
  fc.assert(
    fc.property(machine(uncalibrated), (all) => {
      const together = machineMemory(all).bytes;
      const each = all.map((one) => memoryOf(one).bytes);
      expect(together).toBeGreaterThanOrEqual(Math.max(...each));
      expect(together).toBeLessThanOrEqual(each.reduce((a, b) => a + b));
    }),
  );
});

test('the order of the instruments does not matter', () => {
  fc.assert(
    fc.property(machine(uncalibrated), (all) => {
      expect(machineMemory([...all].reverse())).toEqual(machineMemory(all));
    }),
  );
});

test('one more zone never costs less', () => {
  fc.assert(
    fc.property(machine(uncalibrated), fc.nat(), fc.nat(), (all, which, zone) => {
      const grown = all.map((one, i) => ({
        ...one,
        copies: one.copies.map(({ zones, count }) => ({
          zones: i === which % all.length ? zones.with(zone % zones.length, 1) : zones,
          count,
        })),
      }));
      expect(machineMemory(grown).bytes).toBeGreaterThanOrEqual(machineMemory(all).bytes);
    }),
  );
});

test('streaming costs no more than loading whole', () => {
  fc.assert(
    fc.property(instrument, player, ({ samples }, streamed) => {
      for (const sample of samples) {
        expect(loadBytes(sample, streamed)).toBeLessThanOrEqual(
          loadBytes(sample, { ...streamed, loads: 'whole', head: null }),
        );
      }
    }),
  );
});

test('a part takes no more than the whole, and all of it the whole without its copies', () => {
  fc.assert(
    fc.property(loaded, zoneMask, (any, part) => {
      const one = { ...any, calibration: computed };
      const all = Uint8Array.from(part, () => 1);
      expect(partMemory(one, part)).toBeLessThanOrEqual(partMemory(one, all));
      const bare = { ...one, player: { ...one.player, perCopy: 0 } };
      expect(partMemory(one, all)).toBe(memoryOf(bare).bytes);
    }),
  );
});

test('readings on a line give the line back', () => {
  fc.assert(
    fc.property(
      instrument,
      player,
      fc.nat(10_000_000),
      fc.integer({ min: 1, max: 8 }),
      (any, by, fixed, quarters) => {
        // Empty is computed as 0, so that fixed is what was read of it.
        const full = computedCopy(
          any,
          by,
          Uint8Array.from(any.zones, () => 1),
        );
        fc.pre(full > 1_000);
        const factor = quarters / 4;
        const readings = [reading('empty', fixed), reading('full', fixed + factor * full)];
        const { calibration: found, findings } = calibrate(any, by, readings, null);
        expect(findings).toEqual([]);
        if (found.basis !== 'fitted') throw new Error('not fitted');
        expect(found.lines).toHaveLength(1);
        expect(found.residual).toBeCloseTo(0, 3);
        expect(found.lines[0].fixed).toBeCloseTo(fixed, 3);
        expect(found.lines[0].factor).toBeCloseTo(factor, 9);
      },
    ),
  );
});

test('the same again, whatever was asked before', () => {
  fc.assert(
    fc.property(machine(), (all) => {
      const first = machineMemory(all);
      for (const one of all) machineMemory([one, all[0]!]);
      expect(machineMemory(all)).toEqual(first);
    }),
  );
});
