import type { CopyUsage, UsageClass } from './zone-usage.ts';

/** Gives what is asked for numbers from 0 on, in the order of the old ones. */
const renumber = (used: Iterable<number>): ReadonlyMap<number, number> =>
  new Map([...new Set(used)].sort((a, b) => a - b).map((old, index) => [old, index]));

const chosen = <T>(list: readonly T[], numbers: ReadonlyMap<number, number>): readonly T[] =>
  [...numbers.keys()].map((old) => list[old]!);

/** A copy's usage with some of its classes, and only the states, values and lives that these saw. */
export const withClasses = (copy: CopyUsage, classes: readonly UsageClass[]): CopyUsage => {
  const states = renumber(classes.map(({ state }) => state));
  const lives = renumber(classes.map(({ life }) => life).filter((life) => life >= 0));
  const seen = chosen(copy.states, states);
  const values = renumber(seen.flat());
  return {
    ...copy,
    alternatives: chosen(copy.alternatives, values),
    states: seen.map((state) => state.map((value) => values.get(value)!)),
    lives: chosen(copy.lives, lives),
    classes: classes.map((one) => ({
      ...one,
      state: states.get(one.state)!,
      life: lives.get(one.life) ?? -1,
    })),
  };
};
