/**
 * Small random banks for property tests: few preset numbers, so that fallback is used; few range
 * limits, so that notes meet them; and zones that break the rules about zones.
 */
import fc from 'fast-check';
import {
  operators,
  range,
  type BankPlan,
  type Generator,
  type InstrumentPlan,
  type PresetPlan,
  type ZonePlan,
} from './soundfont-bytes.ts';

const keyLows = [0, 0, 48, 60, 61, 72];
const keyHighs = [47, 59, 60, 71, 127, 127];
const velocityLows = [0, 1, 64, 65, 100];
const velocityHighs = [63, 64, 99, 127, 127];

/** Bank and program. Bank 129 is what controller 0 = 1 and 32 = 1 add up to, 128 what 1 and 0 do. */
const presetNumbers = [
  [0, 0],
  [0, 0],
  [0, 1],
  [0, 5],
  [1, 0],
  [1, 5],
  [2, 1],
  [9, 5],
  [128, 0],
  [128, 0],
  [128, 5],
  [129, 1],
] as const;

/** A range now and then has its limits the wrong way round: it covers nothing. */
function ranges(operator: number, lows: readonly number[], highs: readonly number[]) {
  return fc
    .tuple(fc.constantFrom(...lows), fc.constantFrom(...highs))
    .map(([low, high]): Generator => [operator, range(low, high)]);
}

const keyRanges = ranges(operators.keyRange, keyLows, keyHighs);
const velocityRanges = ranges(operators.velocityRange, velocityLows, velocityHighs);

/** Pan, attenuation, coarse and fine tuning: they never choose a zone. */
const others = fc
  .tuple(fc.constantFrom(17, 48, 51, 52), fc.integer({ min: 0, max: 40 }))
  .map(([operator, amount]): Generator => [operator, amount]);

const sometimes = <T>(values: fc.Arbitrary<T>) => fc.array(values, { maxLength: 1 });

/** Generators in the order the rules ask for, without an instrument or a sample. */
const wellPlaced = fc
  .tuple(sometimes(keyRanges), sometimes(velocityRanges), fc.array(others, { maxLength: 2 }))
  .map((parts) => parts.flat());

function zones(targetOperator: number, targets: number): fc.Arbitrary<ZonePlan> {
  const target = fc.nat({ max: targets - 1 }).map((index): Generator => [targetOperator, index]);
  const row = (...parts: fc.Arbitrary<Generator>[]) => fc.tuple(...parts);

  const sounding = fc.tuple(wellPlaced, target).map(([front, last]) => [...front, last]);
  const misplaced = fc.oneof(
    row(velocityRanges, keyRanges, target),
    row(others, keyRanges, velocityRanges, target),
    row(keyRanges, others, velocityRanges, target),
    row(target, keyRanges, velocityRanges),
  );
  const repeated = fc.oneof(
    row(keyRanges, keyRanges, velocityRanges, velocityRanges, target),
    row(others, others, others, target),
    row(target, target),
  );
  const generators = fc.oneof(
    { weight: 8, arbitrary: sounding },
    { weight: 1, arbitrary: wellPlaced },
    { weight: 2, arbitrary: misplaced },
    { weight: 1, arbitrary: repeated },
  );
  // Velocity to attenuation, as a modulator of the zone: it never chooses a zone either.
  const modulators = sometimes(fc.constant([0x0502, 48, 960, 0, 0] as const));
  return fc.record({ generators, modulators });
}

/** No zones, one zone, or several, often with a global one in front. */
function zoneLists(targetOperator: number, targets: number): fc.Arbitrary<ZonePlan[]> {
  const global = wellPlaced.map((generators): ZonePlan => ({ generators }));
  const local = zones(targetOperator, targets);
  return fc.oneof(
    { weight: 1, arbitrary: fc.array(local, { maxLength: 1 }) },
    { weight: 6, arbitrary: fc.array(local, { minLength: 1, maxLength: 4, size: 'max' }) },
    {
      weight: 6,
      arbitrary: fc
        .tuple(global, fc.array(local, { minLength: 1, maxLength: 4, size: 'max' }))
        .map(([first, rest]) => [first, ...rest]),
    },
  );
}

function instruments(samples: number): fc.Arbitrary<InstrumentPlan[]> {
  const zoneList = zoneLists(operators.sampleId, samples);
  return fc
    .array(zoneList, { minLength: 1, maxLength: 4, size: 'max' })
    .map((lists) => lists.map((list, index) => ({ name: `instrument ${index}`, zones: list })));
}

function presets(instrumentCount: number): fc.Arbitrary<PresetPlan[]> {
  const preset = fc.tuple(
    fc.constantFrom(...presetNumbers),
    zoneLists(operators.instrument, instrumentCount),
  );
  return fc.array(preset, { minLength: 2, maxLength: 6, size: 'max' }).map((list) =>
    list.map(([[bank, program], zoneList]) => ({
      ...{ name: `preset ${bank}:${program}`, bank, program },
      zones: zoneList,
    })),
  );
}

/** Two to six presets over one to four instruments and one to three samples. */
export function randomBank(): fc.Arbitrary<BankPlan> {
  return fc
    .record({ samples: fc.integer({ min: 1, max: 3 }), sm24: fc.boolean() })
    .chain(({ samples, sm24 }) =>
      instruments(samples).chain((instrumentPlans) =>
        presets(instrumentPlans.length).map((presetPlans) => ({
          sm24,
          presets: presetPlans,
          instruments: instrumentPlans,
          samples: Array.from({ length: samples }, (_, index) => ({ name: `sample ${index}` })),
        })),
      ),
    );
}
