import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';

/** The text of a template, made from the tracks of cues: the result of `draft`. */
export interface Draft {
  readonly schema: 'keepset/draft@1';
  /** In order of first appearance. Of an update, what it added. */
  readonly groups: readonly DraftGroup[];
  /** How many tracks got a rule; the same name in several cues counts once. */
  readonly added: number;
  /** The whole file. */
  readonly text: string;
  /** What describes the new instruments, to be filled in; none unless a folder for them is named. */
  readonly outlines: readonly DraftOutline[];
  readonly findings: readonly Finding[];
}

/** An outline that the template names for a new instrument. */
export interface DraftOutline {
  /** The id in the template. */
  readonly instrument: string;
  /** In the folder that was named for outlines. */
  readonly path: string;
  /** True where something is at `path` already: it stays as it is. */
  readonly isThere: boolean;
  /** The whole file, as it was drafted. */
  readonly text: string;
}

/** Tracks of similar names, on one instrument. */
export interface DraftGroup extends Seen {
  /** The id in the template; null for a click, which no instrument plays. */
  readonly instrument: string | null;
  /** False where an update found the instrument in the template. */
  readonly isNew: boolean;
  /** Names, white space tidied; empty: a track without a name. */
  readonly tracks: readonly string[];
  /** What the names say, in order of first appearance: `legato`. */
  readonly articulations: readonly string[];
}

/** What tracks play over all cues. Ports and channels count from 1, programs from 0. */
export interface Seen {
  /** Cues with at least one note. */
  readonly cues: number;
  readonly notes: number;
  /** Lowest and highest key, likely switches left out; null where nothing else is played. */
  readonly keys: Range | null;
  readonly velocities: Range | null;
  readonly controllers: readonly number[];
  readonly programs: readonly number[];
  readonly ports: readonly number[];
  readonly channels: readonly number[];
  /** Keys that look like keyswitches: a guess. */
  readonly likelySwitches: readonly number[];
}
