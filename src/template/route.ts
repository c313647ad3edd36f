import type { Place } from '../terms/finding.ts';
import type { Pattern } from './patterns/pattern.ts';

/** What happens to the events of a part on their way to an instrument. */
export interface Transform {
  /** Semitones added to every key; notes that leave 0-127 are lost. */
  readonly transpose: number;
  /** Note-on velocities are multiplied, rounded half up and kept to 1-127; 0 stays 0. */
  readonly velocity: number;
  /** Controller numbers that arrive as another: from -> to. */
  readonly controllers: ReadonlyMap<number, number>;
}

export const unchanged: Transform = { transpose: 0, velocity: 1, controllers: new Map() };

/** A rule that sends parts to instruments. The first rule that matches a part decides about it. */
export interface Route {
  /** The part's track name must match one of these; a track without a name is the empty name. */
  readonly tracks: readonly Pattern[];
  /** The cue's id must match; null: any cue. */
  readonly cue: Pattern | null;
  /** From 0; null: any. */
  readonly port: number | null;
  /** From 0; null: any. */
  readonly channel: number | null;
  /**
   * Parts of one cue file with equal `join` (and equal captures) drive one copy; null: a copy per
   * track. The text names the copy across cues: the patterns as written, or the word of a table.
   */
  readonly join: string | null;
  readonly outcome: Outcome;
  /** The rule as a person would recognise it, shortened: `track "Vc {art}"`. */
  readonly rule: string;
  readonly file: string;
  readonly at: Place;
}

export type Outcome =
  | { readonly kind: 'ignore' }
  | {
      readonly kind: 'play';
      /** Ids; each gets a copy of its own. At least one. */
      readonly instruments: readonly string[];
      /** The articulation's name, with `{captures}` still in it; null: the part's switches decide. */
      readonly articulation: string | null;
      readonly transform: Transform;
      /** Already audio: priced, not needed. */
      readonly printed: boolean;
    };
