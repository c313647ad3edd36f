import { fold } from '../../notation/fold.ts';

/**
 * Finds things by their names: the one whose name is just that, else the only one whose name is the same
 * when both are folded.
 */
export const finderOf = <Value>(
  values: readonly Value[],
  nameOf: (value: Value) => string,
): ((name: string) => Value | null) => {
  const exact = new Map(values.map((value) => [nameOf(value), value]));
  const folded = new Map<string, Value | null>();
  for (const value of values) {
    const key = fold(nameOf(value));
    folded.set(key, folded.has(key) ? null : value);
  }
  return (name) => exact.get(name) ?? folded.get(fold(name)) ?? null;
};
