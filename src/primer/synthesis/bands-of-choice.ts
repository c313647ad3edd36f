import type { Program } from '../../instruments/program.ts';
import { intersect, type Range } from '../../terms/range.ts';
import { knobOf, type Knob } from './demands.ts';

/** What a data byte of a message may be. */
export const sevenBits: Range = [0, 127];

/** More values of one thing than this are not tried. */
const mostValues = 6;

/** One value from each stretch of `ranges` that no limit divides, those in the middle first. */
export const middles = (
  ranges: readonly Range[],
  limits: readonly number[],
  whole: Range,
): readonly number[] => {
  const values: number[] = [];
  for (const range of ranges) {
    const inside = intersect(range, whole);
    if (inside === null) continue;
    const [lo, hi] = inside;
    const edges = [lo, ...limits.filter((edge) => edge > lo && edge <= hi), hi + 1];
    edges.forEach((edge, i) => {
      const next = edges[i + 1];
      if (next !== undefined && next > edge) values.push((edge + next - 1) >> 1);
    });
  }
  const middle = (values.length - 1) / 2;
  return [...new Set(values)]
    .map((value, i) => ({ value, distance: Math.abs(i - middle) }))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, mostValues)
    .map(({ value }) => value);
};

/** Where something may change in a program: below each of these values it may be otherwise. */
export interface Limits {
  readonly keys: readonly number[];
  readonly velocities: readonly number[];
  readonly knobs: ReadonlyMap<Knob, readonly number[]>;
}

const known = new WeakMap<Program, Limits>();

/** The {@link Limits} of a program, found once. */
export const limitsOf = (program: Program): Limits => {
  let found = known.get(program);
  if (found === undefined) known.set(program, (found = examine(program)));
  return found;
};

const examine = ({ signals, gates, starts }: Program): Limits => {
  const keys = new Set<number>();
  const velocities = new Set<number>();
  const knobs = new Map<Knob, Set<number>>();
  const add = (signal: number, lo: number, hi: number): void => {
    const knob = knobOf(signals[signal]!, signal);
    const edges = knobs.get(knob) ?? new Set<number>();
    knobs.set(knob, edges.add(lo).add(hi + 1));
  };
  for (const { signal, tests } of gates.flat()) {
    for (const { lo, hi, signal: other = signal } of tests) add(other, lo, hi);
  }
  for (const { keys: own, velocities: strengths, fades, change } of starts) {
    for (const { signal, lo, hi } of fades) add(signal, lo, hi);
    if (change !== undefined) add(change, own[0], own[1]);
    else keys.add(own[0]).add(own[1] + 1);
    velocities.add(strengths[0]).add(strengths[1] + 1);
  }
  const ascending = (values: ReadonlySet<number>): readonly number[] =>
    [...values].filter(Number.isFinite).sort((a, b) => a - b);
  return {
    keys: ascending(keys),
    velocities: ascending(velocities),
    knobs: new Map([...knobs].map(([knob, edges]) => [knob, ascending(edges)])),
  };
};
