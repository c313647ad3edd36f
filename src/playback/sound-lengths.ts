import type { Program, Start } from '../instruments/program.ts';
import { contains } from '../terms/range.ts';

/**
 * How long a program's sounds go on by themselves, in seconds: the longest of all of its zones, so
 * that which of them plays does not matter. Infinity: to the end of the cue.
 */
export interface SoundLengths {
  /** From a key going down: what plays to its end whatever its key does. */
  readonly fromStrike: number;
  /** From a key or a pedal going up: what fades then, and what starts then. */
  readonly fromRelease: number;
  /** Indices of the holds whose pedals matter. */
  readonly holds: ReadonlySet<number>;
  /** By key, 1 where some zone plays it; the others can only be switches. */
  readonly plays: Uint8Array;
  /** Zones that a message starts. */
  readonly changes: readonly ChangeLength[];
}

/** A zone that starts when a signal is set to a value of a range. */
export interface ChangeLength {
  readonly signal: number;
  readonly start: Start;
  readonly seconds: number;
}

/**
 * @param unknown seconds to take where the instrument does not say how long: tables and SoundFonts never
 *   do, as their release is not read, and no more can be said of a sample that loops
 */
export const soundLengths = (
  { starts, holds }: Pick<Program, 'starts' | 'holds'>,
  unknown: number,
): SoundLengths => {
  // A start of another articulation than the copy's own holds no key.
  const possible = starts.filter(({ keys: [lo, hi] }) => lo <= hi);
  const isOneShot = ({ hold }: Start): boolean => holds[hold]!.oneShot;
  const isKnown = ({ releaseSeconds }: Start): boolean => releaseSeconds !== Infinity;
  const secondsOf = (start: Start): number => (isKnown(start) ? start.releaseSeconds : unknown);
  const longest = (some: readonly Start[]): number =>
    some.reduce((most, start) => Math.max(most, secondsOf(start)), 0);
  const byKey = possible.filter(({ event }) => event !== 'change');
  const cuts = byKey.some(({ event }) => event === 'cut');
  const plays = new Uint8Array(128);
  for (const { keys } of byKey) {
    // What any key cuts short sounds by any key.
    for (let key = 0; key < 128; key++) if (cuts || contains(keys, key)) plays[key] = 1;
  }
  const struck = byKey.filter(
    (one) => one.event === 'restrike' || one.event === 'cut' || isOneShot(one),
  );
  // Of a one-shot whose length is not known nothing can be said from its start on.
  const released = byKey.filter(
    (one) => one.event !== 'note-on' || !isOneShot(one) || !isKnown(one),
  );
  return {
    fromStrike: longest(struck),
    fromRelease: longest(released),
    holds: new Set(released.map(({ hold }) => hold)),
    plays,
    changes: possible.flatMap((start) =>
      start.change === undefined
        ? []
        : [
            {
              signal: start.change,
              start,
              // No key is behind it that could let it go.
              seconds: isOneShot(start) ? secondsOf(start) : Infinity,
            },
          ],
    ),
  };
};
