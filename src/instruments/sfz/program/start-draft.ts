import { plain, type DoubtSet } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import type { Start, StartEvent } from '../../program.ts';
import type { FadeReading } from './controller-fades.ts';
import type { RangeReading } from './range-reading.ts';

/** One event that starts a region. */
export interface Trigger {
  readonly event: StartEvent;
  readonly change?: number;
  readonly gate: number;
  readonly doubt: DoubtSet;
  /** Keys, or for a change its values. */
  readonly keys: readonly RangeReading[];
  readonly velocities: readonly RangeReading[];
}

/** What is the same for all starts of a region. */
export type Common = Pick<Start, 'zone' | 'articulation' | 'hold' | 'releaseSeconds'>;

/** Every way to read a trigger, as starts; those that a smaller set of doubts covers are left out. */
export const startsOf = (
  { event, change, gate, doubt, keys, velocities }: Trigger,
  common: Common,
  fades: readonly FadeReading[],
): readonly Start[] => {
  const starts = keys.flatMap((key) =>
    velocities.flatMap((velocity) =>
      fades.map((fade): Start => ({
        ...common,
        event,
        ...(change === undefined ? {} : { change }),
        keys: key.range,
        velocities: velocity.range,
        gate,
        fades: fade.fades,
        doubt: doubt | key.doubt | velocity.doubt | fade.doubt,
      })),
    ),
  );
  return starts.length < 2 ? starts : starts.filter((start, i) => !isCovered(start, i, starts));
};

/** The same starts, as those that make no sound. */
export const silently = (starts: readonly Start[]): readonly Start[] =>
  starts.map((start) => ({ ...start, fades: [], silent: true }));

const isCovered = (start: Start, i: number, all: readonly Start[]): boolean =>
  all.some(
    (other, j) =>
      j !== i &&
      (other.doubt & ~start.doubt) === 0 &&
      inside(start.keys, other.keys) &&
      inside(start.velocities, other.velocities) &&
      (other.fades.length === 0 || JSON.stringify(other.fades) === JSON.stringify(start.fades)) &&
      (j < i || !isSame(start, other)),
  );

const isSame = (a: Start, b: Start): boolean =>
  a.doubt === b.doubt &&
  inside(a.keys, b.keys) &&
  inside(b.keys, a.keys) &&
  inside(a.velocities, b.velocities) &&
  inside(b.velocities, a.velocities) &&
  a.fades.length === b.fades.length;

const inside = (inner: Range, outer: Range): boolean =>
  inner[0] >= outer[0] && inner[1] <= outer[1];

/** Whatever the velocity. */
export const anyVelocity: readonly RangeReading[] = [{ range: [0, 127], doubt: plain }];

/** Heard whatever controllers do. */
export const unfaded: readonly FadeReading[] = [{ fades: [], doubt: plain }];
