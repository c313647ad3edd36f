import { doubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { Alternative, Alternatives } from './alternatives.ts';
import { anyHold, type Moment } from './zone-usage.ts';

const smoothing = doubtSet('smoothing');

/** More combinations than this are joined to one moment under all their doubts. */
const combinationLimit = 256;

/** A stretch that one signal may go through, and the doubts under which it does. */
export interface Choice {
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
  previous: (signal: number) => Alternatives | null,
): readonly Moment[] => {
  const choices = fading.map((signal): readonly Choice[] => {
    const now = numbersOf(seen[signal]!);
    const before = previous(signal);
    const still = now.map(({ value, doubt }): Choice => ({ range: [value, value], doubt }));
    if (before === null) return still;
    const onTheWay = now.flatMap(({ value, doubt }) =>
      numbersOf(before).flatMap((from): readonly Choice[] =>
        from.value === value
          ? []
          : [
              {
                range: [Math.min(from.value, value), Math.max(from.value, value)],
                doubt: doubt | from.doubt | smoothing,
              },
            ],
      ),
    );
    return leastChoices([...still, ...onTheWay]);
  });
  return combined(choices);
};

/** Without those that another one covers. */
const leastChoices = (choices: readonly Choice[]): readonly Choice[] =>
  choices.filter(
    ({ range, doubt }, i) =>
      !choices.some(
        (other, j) =>
          j !== i &&
          (other.doubt & ~doubt) === 0 &&
          other.range[0] <= range[0] &&
          other.range[1] >= range[1] &&
          (j < i || other.doubt !== doubt || other.range[1] - other.range[0] > range[1] - range[0]),
      ),
  );

interface Numbered {
  readonly value: number;
  readonly doubt: number;
}

const isNumbered = (one: Alternative): one is Numbered => typeof one.value === 'number';

export const numbersOf = ({ list }: Alternatives): readonly Numbered[] =>
  list.every(isNumbered) ? list : list.filter(isNumbered);

/** What signals may be, and what they were before the last message. */
export interface SignalsNow {
  present(signal: number): Alternatives;
  previous(signal: number): Alternatives;
  mayBecome(signal: number): Alternatives | null;
}

/** What a sounding voice goes through when some signals change: from all they were to all they are. */
export const passingMoments = (
  fading: readonly number[],
  changed: readonly number[],
  scope: SignalsNow,
): readonly Moment[] =>
  combined(
    fading.map((signal): readonly Choice[] => {
      const still = (list: Alternatives): readonly Choice[] =>
        numbersOf(list).map(({ value, doubt }) => ({ range: [value, value], doubt }));
      if (!changed.includes(signal)) return still(scope.present(signal));
      const from = scope.previous(signal);
      // Where a message plainly leaves a signal alone, each value it may have stays what it is.
      const other = scope.mayBecome(signal);
      const to = numbersOf(other ?? scope.present(signal));
      const moved = to.flatMap(({ value, doubt }) =>
        numbersOf(from).map((one): Choice => ({
          range: [Math.min(one.value, value), Math.max(one.value, value)],
          doubt: one.doubt | doubt,
        })),
      );
      return other === null ? moved : [...still(from), ...moved];
    }),
  );

/** Every combination of one choice for each signal. */
export const combined = (choices: readonly (readonly Choice[])[]): readonly Moment[] => {
  const count = choices.reduce((product, list) => product * list.length, 1);
  if (count > combinationLimit) return hulls(choices);
  return choices.reduce<readonly Moment[]>(
    (moments, list) =>
      moments.flatMap(({ ranges, doubt }) =>
        list.map((choice) => ({
          ranges: [...ranges, choice.range],
          doubt: doubt | choice.doubt,
          after: 0,
          hold: anyHold,
        })),
      ),
    [{ ranges: [], doubt: 0, after: 0, hold: anyHold }],
  );
};

/**
 * For each set of doubts the box around all that is possible under it: more than is needed, and right
 * whichever of the doubts is answered.
 */
const hulls = (choices: readonly (readonly Choice[])[]): readonly Moment[] => {
  const all = choices.flat().reduce((set, { doubt }) => set | doubt, 0);
  const moments: Moment[] = [];
  for (let doubt = all; ; doubt = (doubt - 1) & all) {
    const within = choices.map((list) => list.filter((one) => (one.doubt & ~doubt) === 0));
    if (within.every((list) => list.length > 0)) {
      const ranges = within.map((list): Range => [
        Math.min(...list.map(({ range }) => range[0])),
        Math.max(...list.map(({ range }) => range[1])),
      ]);
      moments.push({ ranges, doubt, after: 0, hold: anyHold });
    }
    if (doubt === 0) return moments;
  }
};
