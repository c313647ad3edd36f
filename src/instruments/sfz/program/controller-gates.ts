import { plain } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import type { Condition, Test } from '../../program.ts';
import type { Parts } from './parts.ts';
import { engine, rangeReadings, type RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/** Controllers that stand for other messages (the open SFZ documentation, "extended MIDI CCs"). */
export const extended = { bend: 128, channelPressure: 129, polyPressure: 130 } as const;

export const sevenBits = [0, 127] as const;
export const bendRange = [-8192, 8191] as const;

/** A controller's number, and a way to read the limits set for it. */
interface ControllerLimits {
  readonly number: number;
  readonly readings: readonly RangeReading[];
}

/**
 * Limits on controllers, `loccN` and `lohdccN` apart.
 *
 * @param before what the names begin with: nothing, or `on_`
 */
export const controllerLimits = (
  opcodes: RegionOpcodes,
  before: '' | 'on_',
): readonly ControllerLimits[] =>
  (['cc', 'hdcc'] as const).flatMap((family) =>
    opcodes.numbered(`${before}lo${family}`, `${before}hi${family}`).map((number) => ({
      number,
      readings: family === 'cc' ? whole(opcodes, before, number) : fine(opcodes, before, number),
    })),
  );

const whole = (opcodes: RegionOpcodes, before: string, n: number): readonly RangeReading[] =>
  rangeReadings(
    { value: opcodes.whole(`${before}locc${String(n)}`), absent: 0 },
    { value: opcodes.whole(`${before}hicc${String(n)}`), absent: 127 },
    sevenBits,
  );

/** Limits from 0 to 1, as controller values: `lo <= value / 127 <= hi`. */
const fine = (opcodes: RegionOpcodes, before: string, n: number): readonly RangeReading[] =>
  rangeReadings(
    { value: opcodes.number(`${before}lohdcc${String(n)}`), absent: 0 },
    { value: opcodes.number(`${before}hihdcc${String(n)}`), absent: 1 },
    [0, 1],
  ).map(({ range: [lo, hi], doubt }) => ({
    range: [Math.ceil((lo - tolerance) * 127) + 0, Math.floor((hi + tolerance) * 127)],
    doubt,
  }));

const tolerance = 1e-9;

/** Bend values that stand for `range` of a controller, which has its middle between 63 and 64. */
export const bendOf = ([lo, hi]: Range): Range => [
  Math.ceil((lo * 16383) / 127) - 8192,
  Math.floor((hi * 16383) / 127) - 8192,
];

/** Alternative tests; null when no reading leaves anything to accept. */
export const condition = (signal: number, tests: readonly Test[]): Condition | null =>
  tests.length === 0 ? null : { signal, tests };

export const testsOf = (readings: readonly RangeReading[]): readonly Test[] =>
  readings.map(({ range: [lo, hi], doubt }) => ({ lo, hi, doubt }));

/** Poly pressure of the event's own key, or of any: what the first player of the format looked at. */
export const polyPressureTests = (
  parts: Parts,
  readings: readonly RangeReading[],
): { readonly signal: number; readonly tests: readonly Test[] } => {
  const own = parts.signal({ kind: 'poly-pressure', of: 'own-key' });
  const any = parts.signal({ kind: 'poly-pressure', of: 'any-key' });
  const tests = testsOf(readings);
  return {
    signal: own,
    tests: [
      ...tests,
      ...tests.map((test) => ({ ...test, signal: any, doubt: test.doubt | engine })),
    ],
  };
};

/**
 * What `loccN`, `hiccN` and their finer forms ask for; null when it can never be. Controllers from 131
 * on stand for what no file tells, or for what engines do not agree to look at: nothing is asked.
 */
export const controllerConditions = (
  opcodes: RegionOpcodes,
  parts: Parts,
): readonly Condition[] | null => {
  const conditions: Condition[] = [];
  for (const { number, readings } of controllerLimits(opcodes, '')) {
    const made = conditionOn(number, readings, parts);
    if (made === null) return null;
    if (made !== 'always') conditions.push(made);
  }
  return conditions;
};

const conditionOn = (
  number: number,
  readings: readonly RangeReading[],
  parts: Parts,
): Condition | null | 'always' => {
  const ignored = ([lo, hi]: Range): Test => ({ lo, hi, doubt: engine });
  switch (number) {
    case extended.bend: {
      const bends = readings.map(({ range, doubt }) => ({ range: bendOf(range), doubt }));
      const signal = parts.signal({ kind: 'bend' });
      return condition(signal, [...testsOf(bends), ignored(bendRange)]);
    }
    case extended.channelPressure: {
      const signal = parts.signal({ kind: 'pressure' });
      return condition(signal, [...testsOf(readings), ignored(sevenBits)]);
    }
    case extended.polyPressure: {
      const { signal, tests } = polyPressureTests(parts, readings);
      return condition(signal, [...tests, ignored(sevenBits)]);
    }
    default:
      if (number > 127) return 'always';
      return covers(readings, sevenBits)
        ? 'always'
        : condition(parts.controller(number), testsOf(readings));
  }
};

/** True when the plain reading accepts everything. */
export const covers = (readings: readonly RangeReading[], [lo, hi]: Range): boolean =>
  readings.some(({ range, doubt }) => doubt === plain && range[0] <= lo && range[1] >= hi);
