import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { calibrate } from '../../src/memory/calibrate.ts';
import { memoryOf } from '../../src/memory/loaded-memory.ts';
import { machineMemory } from '../../src/memory/machine-memory.ts';
import type { ZoneMask } from '../../src/memory/zone-mask.ts';
import type { Player } from '../../src/template/player.ts';
import { figure, machine, type Head, type MemoryInstrument } from '../oracle/memory.ts';
import { definition, player, zoneMask } from './random-loaded.ts';

/**
 * The figures of an instrument and of a machine against a naive model of the same rules, written by
 * someone who had not seen this folder.
 */
const headOf = ({ head }: Player): Head | null => {
  if (head === null) return null;
  if (head.unit === 'bytes') return { bytes: head.bytes };
  return head.unit === 'frames'
    ? { frames: head.frames }
    : { milliseconds: Math.round(head.seconds * 1_000) };
};

interface Readings {
  readonly empty: number | null;
  readonly full: number | null;
}

const modelOf = (
  { samples, zones, sha256 }: Instrument,
  own: Player,
  { empty, full }: Readings,
): MemoryInstrument => ({
  sha256,
  player: {
    id: own.id,
    head: headOf(own),
    width: own.width === 'source' ? null : own.width,
    perZone: own.perZone,
    perCopy: own.perCopy,
    shares: own.shares,
  },
  samples: Object.fromEntries(samples.map((sample) => [sample.name, sample])),
  zones: zones.map(({ samples: used }) => used.map((sample) => samples[sample]!.name)),
  readings: [
    ...(empty === null ? [] : [{ zones: [], bytes: empty }]),
    ...(full === null ? [] : [{ zones: zones.map((_, zone) => zone), bytes: full }]),
  ],
});

const loadedOf = (
  instrument: Instrument,
  own: Player,
  { empty, full }: Readings,
  copies: readonly ZoneMask[],
) => {
  const readings = [
    ...(empty === null ? [] : [{ of: 'empty', bytes: empty, at: {} }]),
    ...(full === null ? [] : [{ of: 'full', bytes: full, at: {} }]),
  ];
  const { calibration } = calibrate(instrument, own, readings, null);
  const [first] = copies;
  return {
    instrument,
    player: own,
    calibration,
    copies:
      own.shares === 'machine'
        ? [{ zones: first!, count: copies.length }]
        : copies.map((zones) => ({ zones, count: 1 })),
  };
};

const zonesOf = (mask: ZoneMask): readonly number[] =>
  [...mask].flatMap((one, zone) => (one === 1 ? [zone] : []));

const readings = fc.record({
  empty: fc.option(fc.nat(50_000_000)),
  full: fc.option(fc.nat(50_000_000)),
});
const copies = fc.array(zoneMask, { minLength: 1, maxLength: 3 });

/** Shared copies all hold the same zones. */
const alike = (masks: readonly ZoneMask[], own: Player): readonly ZoneMask[] =>
  own.shares === 'machine' ? masks.map(() => masks[0]!) : masks;

describe('memory', () => {
  test('of an instrument is what the naive model makes it', () => {
    fc.assert(
      fc.property(definition(1), player, readings, copies, ([instrument], own, read, masks) => {
        const held = alike(masks, own);
        const model = figure(modelOf(instrument!, own, read), held.map(zonesOf));
        const { bytes, low, high, basis } = memoryOf(loadedOf(instrument!, own, read, held));
        // Empty copies take nothing, whatever was read elsewhere.
        const expected = model.likely === 0 && model.high === 0 ? { ...model, basis } : model;
        expect({ likely: bytes, low, high, basis }).toEqual(expected);
      }),
      { seed: 21, numRuns: 1_000 },
    );
  });

  test('of a machine with several instruments of one definition, computed', () => {
    const none = { empty: null, full: null };
    fc.assert(
      fc.property(definition(2), player, fc.tuple(copies, copies), (instruments, own, masks) => {
        const held = masks.map((some) => alike(some, own));
        const model = machine(
          instruments.map((instrument, i) => ({
            instrument: modelOf(instrument, own, none),
            copies: held[i]!.map(zonesOf),
          })),
          null,
        );
        const found = machineMemory(
          instruments.map((instrument, i) => loadedOf(instrument, own, none, held[i]!)),
        );
        expect({ likely: found.bytes, low: found.low, high: found.high, fits: null }).toEqual(
          model,
        );
      }),
      { seed: 22, numRuns: 500 },
    );
  });
});
