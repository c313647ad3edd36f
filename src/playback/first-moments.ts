import { doubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { Alternatives } from './alternatives.ts';
import type { Moment } from './zone-usage.ts';

const smoothing = doubtSet('smoothing');

/** More combinations than this are joined to one moment under all their doubts. */
const combinationLimit = 256;

interface Choice {
  readonly range: Range;
  readonly doubt: number;
}

/**
 * What a voice can start with: every combination of what its fading signals may be at its note-on,
 * and, for players that follow a jump slowly, what lies between the last two values (`smoothing`).
 */
export const firstMoments = (
  fading: readonly number[],
  seen: readonly Alternatives[],
  previousValue: (signal: number) => number,
): readonly Moment[] => {
  const choices = fading.map((signal): readonly Choice[] => {
    const values = seen[signal]!.list.flatMap(({ value, doubt }): readonly Choice[] =>
      typeof value === 'number' ? [{ range: [value, value], doubt }] : [],
    );
    const now = values[0]!.range[0];
    const from = previousValue(signal);
    if (from === now) return values;
    return [...values, { range: [Math.min(from, now), Math.max(from, now)], doubt: smoothing }];
  });
  const count = choices.reduce((product, list) => product * list.length, 1);
  if (count > combinationLimit) {
    return [
      { ranges: choices.map((list) => list[0]!.range), doubt: 0, after: 0 },
      {
        ranges: choices.map((list) => [
          Math.min(...list.map(({ range }) => range[0])),
          Math.max(...list.map(({ range }) => range[1])),
        ]),
        doubt: choices.flat().reduce((set, { doubt }) => set | doubt, 0),
        after: 0,
      },
    ];
  }
  return choices.reduce<readonly Moment[]>(
    (moments, list) =>
      moments.flatMap(({ ranges, doubt }) =>
        list.map((choice) => ({
          ranges: [...ranges, choice.range],
          doubt: doubt | choice.doubt,
          after: 0,
        })),
      ),
    [{ ranges: [], doubt: 0, after: 0 }],
  );
};
