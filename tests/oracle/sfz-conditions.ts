/**
 * Conditions and the doubts under which they hold together. A condition is a list of tests, any of
 * which is enough. Signals vary freely; but where several conditions, or a condition and a fade, ask
 * one signal, one value has to satisfy them all.
 */
import { minimal, plain } from './doubts.ts';
import type { Moment, Signal, SignalValue } from './sfz-signals.ts';

export interface Test {
  /** null: what is tested is known, and `accepts` says so whatever it is given. */
  readonly signal: Signal | null;
  readonly accepts: (value: number) => boolean;
  readonly doubts: number;
}

export type Condition = readonly Test[];

/** Values of the signals that were asked for by name, and what it takes for all conditions to hold. */
export interface Way {
  readonly values: ReadonlyMap<string, SignalValue>;
  readonly doubts: number;
}

/** A condition on something that is not a signal: its readings, plain ones first. */
export function known(...readings: readonly (readonly [holds: boolean, doubts: number])[]) {
  return readings.map(([holds, doubts]): Test => ({ signal: null, accepts: () => holds, doubts }));
}

/** Each set of one list with each of another. */
export function together(a: readonly number[], b: readonly number[]): number[] {
  return minimal(a.flatMap((x) => b.map((y) => x | y)));
}

/** Every way in which all conditions hold. The signals of `followed` are among its values. */
export function waysToHold(
  conditions: readonly Condition[],
  moment: Moment,
  followed: readonly Signal[] = [],
): Way[] {
  const shared = new Map(followed.map((signal) => [signal.name, signal]));
  const asked = conditions.map(signalsOf);
  for (const signal of asked.flat()) {
    const times = asked.filter((signals) => signals.some(({ name }) => name === signal.name));
    if (times.length > 1) shared.set(signal.name, signal);
  }

  let choices: Way[] = [{ values: new Map(), doubts: plain }];
  for (const signal of shared.values()) {
    choices = choices.flatMap((choice) =>
      cheapest(signal.at(moment)).map((value) => ({
        values: new Map([...choice.values, [signal.name, value]]),
        doubts: choice.doubts | value.doubts,
      })),
    );
  }
  return choices.flatMap(({ values, doubts }) => {
    const sets = conditions
      .map((condition) => condition.flatMap((test) => testDoubts(test, values, moment)))
      .reduce(together, [doubts]);
    return sets.map((set) => ({ values, doubts: set }));
  });
}

function testDoubts(
  { signal, accepts, doubts }: Test,
  chosen: ReadonlyMap<string, SignalValue>,
  moment: Moment,
): number[] {
  if (signal === null) return accepts(0) ? [doubts] : [];
  const value = chosen.get(signal.name);
  // What a chosen value costs is counted once, not by every condition that asks for it.
  if (value !== undefined) return accepts(value.value) ? [doubts] : [];
  return signal
    .at(moment)
    .filter((each) => accepts(each.value))
    .map((each) => doubts | each.doubts);
}

/** Drops what another alternative offers for fewer doubts, or as many. */
export function cheapest(values: readonly SignalValue[]): SignalValue[] {
  return values.filter(
    (value, i) =>
      !values.some(
        (other, j) =>
          i !== j &&
          Object.is(other.value, value.value) &&
          other.reading === value.reading &&
          other.source === value.source &&
          (other.doubts & value.doubts) === other.doubts &&
          (other.doubts !== value.doubts || j < i),
      ),
  );
}

function signalsOf(condition: Condition): Signal[] {
  return condition.flatMap(({ signal }) => (signal === null ? [] : [signal]));
}
