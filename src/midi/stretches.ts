import type { Clock } from './timeline.ts';

/** A part of a file that holds several cues: from its first tick up to, not with, its last. */
export interface Stretch {
  readonly from: number;
  /** null: to the end of the file. */
  readonly to: number | null;
}

/** Where a cue lies in its file: stretches by tick that do not touch; null: all of the file. */
export type Stretches = readonly Stretch[] | null;

/** The tick from which on a cue lies in its file. */
export const beginOf = (stretches: Stretches): number => stretches?.[0]?.from ?? 0;

/** True when a tick of the file lies in the cue. */
export const holdsTick = (stretches: Stretches, tick: number): boolean =>
  stretches === null ||
  stretches.some(({ from, to }) => tick >= from && (to === null || tick < to));

/** Seconds of the cue before a tick of its file: what lies between its stretches does not count. */
export const secondsInto = (
  stretches: Stretches,
  { secondsAt }: Pick<Clock, 'secondsAt'>,
  tick: number,
): number => {
  if (stretches === null) return secondsAt(tick);
  return stretches
    .filter(({ from }) => from < tick)
    .reduce(
      (sum, { from, to }) => sum + secondsAt(Math.min(tick, to ?? tick)) - secondsAt(from),
      0,
    );
};

/**
 * Finds the cue of a tick: an index into `cues`, or -1 where none of them lies. Each look-up takes a
 * binary search.
 *
 * @param cues what of the file each is; they do not overlap
 */
export const cueFinder = (cues: readonly Stretches[]): ((tick: number) => number) => {
  const whole = cues.findIndex((stretches) => stretches === null);
  if (whole >= 0) return () => whole;
  const all = cues
    .flatMap((stretches, cue) => (stretches ?? []).map((stretch) => ({ ...stretch, cue })))
    .sort((a, b) => a.from - b.from);
  return (tick) => {
    let low = 0;
    let high = all.length;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (all[middle]!.from <= tick) low = middle + 1;
      else high = middle;
    }
    const found = all[low - 1];
    return found !== undefined && (found.to === null || tick < found.to) ? found.cue : -1;
  };
};
