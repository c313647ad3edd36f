import type { Instrument } from '../../instruments/instrument.ts';
import type { Plan } from '../../keep/plan.ts';
import type { Score } from '../../midi/score.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import type { Routed } from '../../template/routed.ts';

/** A cue file with what its routes make of it. */
export interface OpenedCue {
  readonly file: FileUsage;
  readonly score: Score;
  readonly routed: Routed;
}

/** `auto`: what can't be made; `only`: everything; `never`: nothing is taken from the cues. */
export type ExcerptChoice = 'auto' | 'never' | 'only';

/** All that a primer is made of. */
export interface ComposeInput {
  readonly plan: Plan;
  /** By id. */
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** Usage of the cues in reel order, with every place of every class. */
  readonly files: readonly FileUsage[];
  readonly base: OpenedCue;
  readonly open: (file: FileUsage) => Promise<OpenedCue>;
  /** Plays a file as if it were the base's cue. */
  readonly play: (bytes: Uint8Array) => FileUsage;
  readonly excerpts: ExcerptChoice;
  /** Only what this machine holds is loaded, by id; null: all. */
  readonly machine: string | null;
  /** Notes a second per machine at most. */
  readonly pace: number;
}
