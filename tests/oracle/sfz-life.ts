/**
 * Fades by controllers over the life of a voice. A life is a list of instants, each a box: where every
 * fading controller may be then. The voice is heard if in some box every controller is where its fade
 * lets it be heard.
 *
 * - Plainly each event is an instant: the controller it moves passes everything between its old and
 *   its new value, all others stand still.
 * - Under `order` a tick is one instant besides: every controller may be anywhere between the lowest
 *   and the highest of what the tick found and what it sets, each for itself. Controllers are
 *   combined freely there, also where no one order of the messages would bring them together.
 * - The value at the start is the one that the gates saw. It lasts until the controller is set again;
 *   if the tick of the start sets it at all, the tick decides what is left after it.
 * - Under `smoothing` a controller may at the start still be on its way from the value before the
 *   message that set it: in file order, and under `order` from any other value of that tick.
 */
import { doubtBits, minimal, plain } from './doubts.ts';
import type { Fade } from './sfz-audible.ts';
import { together } from './sfz-conditions.ts';
import type { SfzEvent } from './sfz-data.ts';
import {
  leftBefore,
  tickOf,
  type Left,
  type Moment,
  type SignalValue,
  type ValueSet,
} from './sfz-signals.ts';

const { order, smoothing, tail } = doubtBits;

export interface Life {
  /**
   * Where the voice may end: the event that releases it, or the number of events; its doubts; and
   * the seconds that it then goes on under `tail`, -1 for none.
   */
  readonly ends: readonly {
    readonly index: number;
    readonly doubts: number;
    readonly tail: number;
  }[];
  /** On all that comes after the start itself. */
  readonly afterStart: number;
}

interface Passed {
  readonly lowest: number;
  readonly highest: number;
  readonly doubts: number;
}

/** What one controller does: its fade, and the value that it starts from. */
interface Course {
  readonly fade: Fade;
  readonly start: SignalValue;
  /** All that sets the controller in the cue. */
  readonly sets: readonly ValueSet[];
}

interface Box {
  readonly passed: readonly (readonly Passed[])[];
  readonly doubts: number;
}

/** The doubt sets under which a voice is heard, beside those of its start values. */
export function heardInLife(
  fades: readonly Fade[],
  starts: readonly SignalValue[],
  moment: Moment,
  life: Life,
): number[] {
  const courses = fades.map((fade, i): Course => {
    const start = starts[i]!;
    return { fade, start, sets: fade.signal.sets(moment.events, start.reading) };
  });
  return minimal(
    boxesOf(courses, moment, life).flatMap((box) =>
      fades
        .map(({ heard }, i) =>
          box.passed[i]!.flatMap((passed) =>
            heard
              .filter(
                ({ span: [lo, hi] }) =>
                  Math.max(passed.lowest, lo, 0) <= Math.min(passed.highest, hi, 127),
              )
              .map(({ doubts }) => doubts | passed.doubts),
          ),
        )
        .reduce(together, [box.doubts]),
    ),
  );
}

function boxesOf(courses: readonly Course[], moment: Moment, life: Life): Box[] {
  const { events, index } = moment;
  const boxes: Box[] = [{ passed: courses.map((course) => atStart(course)), doubts: plain }];
  const add = (passed: (course: Course) => Passed[], doubts: number) =>
    boxes.push({ passed: courses.map(passed), doubts: doubts | life.afterStart });

  for (const end of life.ends) {
    const endTick = events[end.index]?.tick ?? Infinity;
    const endSeconds = events[end.index]?.seconds ?? Infinity;
    events.forEach((event, at) => {
      if (event.tick < tickOf(moment)) return;
      const inTail = end.tail >= 0 && event.seconds <= endSeconds + end.tail + 1e-9 ? tail : null;
      // The order of a tick leaves open on which side of the start and of the end an event stands.
      const inTick = event.tick <= endTick ? plain : inTail;
      if (inTick !== null) {
        add((course) => withinTick(course, moment, event.tick), end.doubts | inTick);
      }
      const inOrder = at < end.index ? plain : inTail;
      if (at > index && inOrder !== null) {
        add((course) => atEvent(course, moment, at, event), end.doubts | inOrder);
      }
    });
  }
  return boxes;
}

/** The instant of the start. */
function atStart({ fade, start, sets }: Course): Passed[] {
  const still = [{ lowest: start.value, highest: start.value, doubts: plain }];
  const own = sets.find(({ index }) => index === start.source);
  if (own === undefined) return still;

  const found = leftBefore(sets, fade.signal.initial, own.tick);
  const onTick = sets.filter(({ tick }) => tick === own.tick);
  const justBefore = onTick.findLast(({ index }) => index < own.index);
  const from = [
    ...(justBefore === undefined ? found : [{ value: justBefore.value, doubts: plain }]),
    ...[...found, ...onTick.map(({ value }) => ({ value, doubts: plain }))].map((each) => ({
      value: each.value,
      doubts: each.doubts | order,
    })),
  ];
  return [
    ...still,
    ...from.map(({ value, doubts }) => between([value, start.value], doubts | smoothing)),
  ];
}

/** One event of the life: the controller moves, or stands where it is. */
function atEvent(course: Course, moment: Moment, at: number, event: SfzEvent): Passed[] {
  const { sets } = course;
  const earlier = sets.findLast(
    ({ tick, index }) => tick === event.tick && index > moment.index && index < at,
  );
  const now =
    earlier === undefined
      ? foundBy(course, moment, event.tick)
      : [{ value: earlier.value, doubts: plain }];
  const set = sets.find(({ index }) => index === at);
  return now.map(({ value, doubts }) => between([value, set?.value ?? value], doubts));
}

/** A whole tick of the life, its messages in whatever order. */
function withinTick(course: Course, moment: Moment, tick: number): Passed[] {
  const { signal } = course.fade;
  const onTick = course.sets.filter((set) => set.tick === tick).map(({ value }) => value);
  if (onTick.length === 0) {
    return foundBy(course, moment, tick).map(({ value, doubts }) => between([value], doubts));
  }
  const found =
    tick === tickOf(moment) && moment.fixed?.name !== signal.name
      ? leftBefore(course.sets, signal.initial, tick)
      : foundBy(course, moment, tick);
  return found.map(({ value, doubts }) => between([value, ...onTick], doubts | order));
}

/** What a tick of the life finds: at the start's own tick, the value of the start. */
function foundBy(
  { start, sets }: Course,
  moment: Moment,
  tick: number,
): Pick<Left, 'value' | 'doubts'>[] {
  const startTick = tickOf(moment);
  const since = sets.filter((set) => set.tick >= startTick && set.tick < tick);
  if (tick === startTick || since.length === 0) return [{ value: start.value, doubts: plain }];
  return leftBefore(since, [], tick);
}

function between(values: readonly number[], doubts: number): Passed {
  return { lowest: Math.min(...values), highest: Math.max(...values), doubts };
}
