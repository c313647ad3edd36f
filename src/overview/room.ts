import { intersect, numbersIn, toRanges, type Range } from '../terms/range.ts';
import type { OtherControl, PlayableStretch } from './overview-playable.ts';
import type { RowAt } from './playable-rows.ts';
import { isTooMuch, safeBox } from './safe-box.ts';

type By = PlayableStretch['dynamics'][number]['by'];

/** What may be played at a key. */
export type Room = Omit<PlayableStretch, 'keys'>;

/**
 * How much room there is for dynamics at a key.
 *
 * @param own layers of the articulation that are there at the key
 * @param beside what starts with its notes too, and is missed
 * @param ends what their ends start, and is missed
 * @returns null: whatever is written asks for something that was dropped
 */
export const roomAt = (
  key: number,
  own: readonly RowAt[],
  beside: readonly RowAt[],
  ends: readonly RowAt[],
): Room | null => {
  const room = roomForNotes(key, own, [...own, ...beside]);
  return room && { ...room, releasesGone: ends.some((row) => isAskedWithin(room, row)) };
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

const roomForNotes = (
  key: number,
  own: readonly RowAt[],
  rows: readonly RowAt[],
): NoteRoom | null => {
  const numbers = rows.flatMap(({ controllers }) => controllers.map(({ number }) => number));
  const all: readonly By[] = ['velocity', ...[...new Set(numbers)].sort((a, b) => a - b)];
  const choosing = all.filter((by) => new Set(rows.map((row) => rangeOn(by, row).join())).size > 1);
  const [isSafe, isFreelySafe] = [
    safety(own, rows, ({ dropped }) => dropped[key] === 1),
    safety(own, rows, ({ droppedFreely }) => droppedFreely[key] === 1),
  ];
  const dynamics = choosing.map((by) => {
    const range = hull(by, own);
    const safe = numbersIn(range).filter((value) => isSafe([[by, value]]));
    return { by, safe: toRanges(safe), all: range };
  });
  const told = { dynamics, together: [], dependsOn: [] };
  if (dynamics.some(({ safe }) => safe.length > 0)) return told;
  const others = otherControlsAt(key, rows);
  const controls = choosing.map((by) => ({ bands: bandsOf(by, own, rows) }));
  if (isTooMuch(controls)) return { ...told, dependsOn: [...others, ...choosing] };
  const boxOf = (of: Safety): readonly Range[] | null =>
    safeBox(controls, (values) => of(values.map((value, i) => [choosing[i]!, value])));
  const box = boxOf(isSafe);
  // Where nothing chooses and nothing was dropped, the box of no control is safe.
  if (box !== null) {
    return { ...told, together: box.map((range, i) => ({ by: choosing[i]!, range })) };
  }
  if (boxOf(isFreelySafe) === null) return null;
  const isFree = rows.every(({ droppedFreely }) => droppedFreely[key] === 0);
  const nothing = { by: 'velocity', safe: [], all: hull('velocity', own) } as const;
  return {
    dynamics: dynamics.length === 0 ? [nothing] : dynamics,
    together: [],
    dependsOn: isFree ? others : [...others, ...choosing],
  };
};

/** Whether notes that have these values ask for something, and for nothing that is missed. */
type Safety = (values: readonly (readonly [By, number])[]) => boolean;

const safety =
  (own: readonly RowAt[], rows: readonly RowAt[], isMissed: (row: RowAt) => boolean): Safety =>
  (values) => {
    const isAsked = (row: RowAt): boolean =>
      values.every(([by, value]) => {
        const [lo, hi] = rangeOn(by, row);
        return lo <= value && value <= hi;
      });
    return own.some(isAsked) && !rows.some((row) => isMissed(row) && isAsked(row));
  };

/** What else decides whether something that was dropped is asked for. */
const otherControlsAt = (key: number, rows: readonly RowAt[]): readonly OtherControl[] => {
  const found = rows.flatMap(({ droppedBy }) =>
    [...droppedBy].flatMap(([other, keys]) => (keys[key] === 1 ? [other] : [])),
  );
  return [...new Set(found)].sort();
};

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
