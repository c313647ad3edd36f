import type { HighFigures } from './high-figures.ts';

/**
 * Instruments that are too much for a machine together: one of `all` has to be elsewhere, or one of
 * `unless` has to be there.
 */
export interface Cut {
  readonly machine: number;
  readonly all: readonly number[];
  readonly unless: readonly number[];
}

/**
 * What a crew that is too much for its machine proves: a part of it, as small as taking members out
 * one by one makes it, that is too much already; on every machine that it is too much for.
 */
export const cutsFor = (
  crew: readonly number[],
  machine: number,
  budgets: readonly (number | null)[],
  { together, relief }: HighFigures,
): readonly Cut[] => {
  const present = new Set(crew);
  const budget = budgets[machine]!;
  /** It must rule out this very crew, so none of those that would help may be in it. */
  const proves = (part: readonly number[]): boolean =>
    together(part) > budget && !relief(part).some((i) => present.has(i));
  let all = crew;
  for (const i of crew) {
    const without = all.filter((each) => each !== i);
    if (proves(without)) all = without;
  }
  const high = together(all);
  const unless = relief(all);
  return budgets.flatMap((each, m) =>
    each !== null && high > each ? [{ machine: m, all, unless }] : [],
  );
};
