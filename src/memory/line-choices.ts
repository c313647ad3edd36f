import type { Line } from './calibration.ts';

/** The lines that each of several instruments may follow. */
export type Lines = readonly (readonly [Line, ...Line[]])[];

/** Ways to choose that are tried one by one: eight instruments with two lines each. */
const most = 256;

/**
 * A line for each instrument, in every way. Where there are too many ways, the instruments that come
 * last follow a line that none of theirs lies beyond: a range of memory may come out wider than need
 * be then, but never too narrow.
 *
 * @param end the end of the range that is looked for
 */
export const lineChoices = (all: Lines, end: 'low' | 'high'): readonly (readonly Line[])[] => {
  const pick = end === 'low' ? Math.min : Math.max;
  return all.reduce<readonly (readonly Line[])[]>(
    (ways, lines) => {
      const options =
        ways.length * lines.length <= most
          ? lines
          : [
              {
                fixed: pick(...lines.map(({ fixed }) => fixed)),
                factor: pick(...lines.map(({ factor }) => factor)),
              },
            ];
      return ways.flatMap((chosen) => options.map((line) => [...chosen, line]));
    },
    [[]],
  );
};
