import type { StartEvent } from '../../instruments/program.ts';
import type { RoutedSource } from '../../template/routed.ts';
import type { Lane } from '../lanes.ts';
import type { Knob } from './demands.ts';

/** A key struck ahead of a note. */
export interface Before {
  readonly key: number;
  readonly velocity: number;
  /** Held until the note is over. */
  readonly isHeld: boolean;
}

/** For what is waited: keys that count as held for a while, and tails of earlier notes. */
export type Wait = 'keys' | 'tails';

/** One way to start something, as it arrives at the copy. */
export interface Situation {
  readonly source: RoutedSource;
  readonly lane: Lane;
  readonly event: StartEvent;
  /** For a change its value. */
  readonly key: number;
  /** For a change of poly pressure its key. */
  readonly velocity: number;
  /** What a `change` sets. */
  readonly change: Knob | null;
  readonly knobs: ReadonlyMap<Knob, number>;
  /** Set while the key is down, for what starts when it goes up. */
  readonly atEnd: ReadonlyMap<Knob, number>;
  readonly before: readonly Before[];
  /** Keys that are held go up before the note's own key does, as in a line that is played. */
  readonly endsLast: boolean;
  /** Waits until earlier notes do not matter any more; null: begins at once. */
  readonly waits: Wait | null;
}
