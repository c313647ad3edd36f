import type { Range } from '../terms/range.ts';

/** `name`, or the next of `name (2)`, `name (3)` … that nothing is called yet; it is taken then. */
export const free = (name: string, taken: Set<string>, repeats: Map<string, number>): string => {
  let found = name;
  let number = repeats.get(name) ?? 1;
  while (taken.has(found)) found = `${name} (${String(++number)})`;
  repeats.set(name, number);
  taken.add(found);
  return found;
};

/** `40` or `1-40`. */
export const rangeText = ([lo, hi]: Range, name: (value: number) => string = String): string =>
  lo === hi ? name(lo) : `${name(lo)}-${name(hi)}`;
