import type { Program, Start, StartEvent } from '../../instruments/program.ts';
import type { Range } from '../../terms/range.ts';
import type { KeyMapRow } from './key-map.ts';

export const rowEvents: readonly KeyMapRow['event'][] = ['note', 'release', 'change'];

/** What kind of event a start waits for, as people tell them apart. */
export const rowEventOf = (event: StartEvent): KeyMapRow['event'] => {
  if (event === 'note-on') return 'note';
  return event === 'change' ? 'change' : 'release';
};

/**
 * The keys of a start; null where it has none: a message has values in their place, and only one that
 * is about a key (poly pressure) has keys too.
 */
export const startKeys = ({ signals }: Program, start: Start): Range | null => {
  const keys = start.event === 'change' ? changedKeys(signals, start) : start.keys;
  if (keys === null) return null;
  // What watches beyond the keys that there are is no wider for it.
  const [lo, hi] = [Math.max(0, keys[0]), Math.min(127, keys[1])];
  return lo <= hi ? [lo, hi] : null;
};

const changedKeys = (signals: Program['signals'], { change, velocities }: Start): Range | null =>
  change !== undefined && signals[change]?.kind === 'poly-pressure' ? velocities : null;
