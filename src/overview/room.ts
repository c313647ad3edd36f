import { intersect, toRanges, type Range } from '../terms/range.ts';
import type { PlayableStretch } from './overview-playable.ts';
import type { RowAt } from './playable-rows.ts';
import { safeBox } from './safe-box.ts';

type By = PlayableStretch['dynamics'][number]['by'];

/** What may be played at a key. */
export type Room = Omit<PlayableStretch, 'keys'>;

/**
 * How much room there is for dynamics at a key.
 *
 * @param own layers of the articulation that are there at the key
 * @param beside what starts with its notes too, and is missed
 * @param ends what their ends start, and is missed
 */
export const roomAt = (
  key: number,
  own: readonly RowAt[],
  beside: readonly RowAt[],
  ends: readonly RowAt[],
): Room => {
  const room = roomForNotes(key, own, beside);
  return { ...room, releasesGone: ends.some((row) => isAskedWithin(room, row)) };
};

type NoteRoom = Omit<Room, 'releasesGone'>;

/** Whether a note within the limits may end in what a row starts: a limit of one control says nothing of others. */
const isAskedWithin = ({ dynamics, together }: NoteRoom, row: RowAt): boolean => {
  if (together.length > 0) {
    return together.every(({ by, range }) => intersect(range, rangeOn(by, row)) !== null);
  }
  const limits = dynamics.filter(({ safe }) => safe.length > 0);
  if (limits.length === 0) return true;
  return limits.some(({ by, safe }) =>
    safe.some((range) => intersect(range, rangeOn(by, row)) !== null),
  );
};

const roomForNotes = (key: number, own: readonly RowAt[], beside: readonly RowAt[]): NoteRoom => {
  const rows = [...own, ...beside];
  const numbers = rows.flatMap(({ controllers }) => controllers.map(({ number }) => number));
  const all: readonly By[] = ['velocity', ...[...new Set(numbers)].sort((a, b) => a - b)];
  const choosing = all.filter((by) => new Set(rows.map((row) => rangeOn(by, row).join())).size > 1);
  if (choosing.length === 0) {
    // Nothing chooses, so what was dropped of the one layer is asked for by every note.
    const isWhole = rows.every(({ dropped }) => dropped[key] === 0);
    const nothing = { by: 'velocity', safe: [], all: hull('velocity', own) } as const;
    return {
      dynamics: isWhole ? [] : [nothing],
      together: [],
      dependsOn: isWhole ? [] : whatDecides(key, rows, []),
    };
  }
  /** Whether notes that have these values ask for something, and for nothing that was dropped. */
  const isSafe = (values: readonly (readonly [By, number])[]): boolean => {
    const isAsked = (row: RowAt): boolean =>
      values.every(([by, value]) => {
        const [lo, hi] = rangeOn(by, row);
        return lo <= value && value <= hi;
      });
    return own.some(isAsked) && !rows.some((row) => row.dropped[key] === 1 && isAsked(row));
  };
  const dynamics = choosing.map((by) => {
    const range = hull(by, own);
    const safe = numbersIn(range).filter((value) => isSafe([[by, value]]));
    return { by, safe: toRanges(safe), all: range };
  });
  if (dynamics.some(({ safe }) => safe.length > 0)) {
    return { dynamics, together: [], dependsOn: [] };
  }
  const box = safeBox(
    choosing.map((by) => ({ bands: bandsOf(by, own, rows) })),
    (values) => isSafe(values.map((value, i) => [choosing[i]!, value])),
  );
  return {
    dynamics,
    together: (box ?? []).map((range, i) => ({ by: choosing[i]!, range })),
    dependsOn: box === null ? whatDecides(key, rows, choosing) : [],
  };
};

/** @param choosing controls that choose among the rows; they count where they alone can lead to a miss */
const whatDecides = (
  key: number,
  rows: readonly RowAt[],
  choosing: readonly By[],
): Room['dependsOn'] => {
  const others = rows.flatMap(({ droppedBy }) =>
    [...droppedBy].flatMap(([other, keys]) => (keys[key] === 1 ? [other] : [])),
  );
  const isFree = rows.some(({ droppedFreely }) => droppedFreely[key] === 1);
  return [...new Set([...others.sort(), ...(isFree ? choosing : [])])];
};

const numbersIn = ([lo, hi]: Range): readonly number[] =>
  Array.from({ length: hi - lo + 1 }, (_, i) => lo + i);

/** Stretches of a control within which every value asks for the same rows. */
const bandsOf = (by: By, own: readonly RowAt[], rows: readonly RowAt[]): readonly Range[] => {
  const [first, last] = hull(by, own);
  // A velocity of 0 ends a note (MIDI 1.0, note-on).
  const low = by === 'velocity' ? Math.max(first, 1) : first;
  const limits = rows.flatMap((row) => {
    const [lo, hi] = rangeOn(by, row);
    return [lo, hi + 1];
  });
  const starts = [...new Set([low, ...limits])]
    .filter((value) => value >= low && value <= last)
    .sort((a, b) => a - b);
  return starts.map((lo, i) => [lo, (starts[i + 1] ?? last + 1) - 1]);
};

const anyValue: Range = [0, 127];

/** A row that does not ask for a controller sounds at all of its values. */
const rangeOn = (by: By, { velocity, controllers }: RowAt): Range =>
  by === 'velocity'
    ? velocity
    : (controllers.find(({ number }) => number === by)?.range ?? anyValue);

const hull = (by: By, rows: readonly RowAt[]): Range => {
  const ranges = rows.map((row) => rangeOn(by, row));
  return ranges.reduce(([lo, hi], range) => [Math.min(lo, range[0]), Math.max(hi, range[1])]);
};
