import type { Check, Miss } from '../keep/check/check.ts';

/** What loading some of the misses takes: exactly, or at the most where they may share samples. */
export interface Load {
  readonly bytes: number;
  readonly exact: boolean;
  /** Parts that can be loaded apart. */
  readonly units: number;
}

/** A unit of the misses: what its player loads together. */
interface Unit {
  readonly bytes: number;
  readonly misses: number;
}

const nameOf = ({ instrument, unit }: Miss): string => JSON.stringify([instrument, unit]);

const unitsOf = (misses: readonly Miss[]): ReadonlyMap<string, Unit> => {
  const units = new Map<string, Unit>();
  for (const miss of misses) {
    const name = nameOf(miss);
    units.set(name, { bytes: miss.bytes, misses: (units.get(name)?.misses ?? 0) + 1 });
  }
  return units;
};

const sumOf = (units: ReadonlyMap<string, Unit>): number =>
  [...units.values()].reduce((sum, { bytes }) => sum + bytes, 0);

const known = new WeakMap<Check['misses'], ReadonlyMap<string, Unit>>();

/** Those of the whole check, worked out once: there may be thousands of blocks that ask. */
const allUnits = ({ misses }: Check): ReadonlyMap<string, Unit> => {
  let units = known.get(misses);
  if (units === undefined) known.set(misses, (units = unitsOf(misses)));
  return units;
};

/** Figures of single units add up only where no two of them hold the same samples. */
export const loadOf = (misses: readonly Miss[], check: Check): Load => {
  const units = unitsOf(misses);
  const bytes = sumOf(units);
  if (units.size === 1) return { bytes, exact: true, units: units.size };
  const { total } = check;
  if (misses.length === check.misses.length)
    return { bytes: total.bytes, exact: true, units: units.size };
  return sumOf(allUnits(check)) === total.bytes
    ? { bytes, exact: true, units: units.size }
    : { bytes: Math.min(bytes, total.bytes), exact: false, units: units.size };
};

/** How many other misses come back with some. */
export const broughtBack = (misses: readonly Miss[], check: Check): number => {
  const all = allUnits(check);
  const names = [...unitsOf(misses).keys()];
  return names.reduce((sum, name) => sum + (all.get(name)?.misses ?? 0), -misses.length);
};
