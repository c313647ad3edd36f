import type { StartEvent } from '../instruments/program.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { Life } from './lives.ts';

/** What an event starts, where its class depends on what happens while it sounds. */
export interface Sound {
  readonly startedBy: StartEvent;
  /** The signal that was set, for a change; else -1. */
  readonly signal: number;
  /** The hold its starts must have, or `anyHold`. */
  readonly hold: number;
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  /** The key that lets it go: tuning may have moved its own away from it. */
  readonly pressed: number;
  /** Started beside or after the press itself: it goes with its key and takes no note-off for itself. */
  readonly isFurther: boolean;
  /** Position of the event in the stream that started it. */
  readonly at: number;
  readonly track: number;
  readonly tick: number;
  readonly event: number;
  readonly doubt: DoubtSet;
  readonly life: Life;
  /** Known once the tick of its start is over. */
  state: number;
  /** How many of its voices may still sound. */
  open: number;
}
