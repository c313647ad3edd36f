import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';

/**
 * What the score plays, no instrument needed: the result of `usage`. Channels and ports count from
 * 1 here, tracks from 0.
 */
export interface NoteUsage {
  readonly schema: 'keepset/usage@1';
  readonly cues: readonly CueNotes[];
  readonly findings: readonly Finding[];
}

export interface CueNotes {
  readonly id: string;
  readonly files: readonly { readonly path: string; readonly sha256: string }[];
  readonly version: number | null;
  readonly state: 'read' | 'damaged' | 'unreadable';
  readonly seconds: number;
  readonly bars: number;
  readonly notes: number;
  readonly parts: readonly PartNotes[];
}

/** The events of one track on one port and channel of a cue. */
export interface PartNotes {
  /** Which of the cue's files, from 0. */
  readonly file: number;
  readonly track: number;
  readonly trackName: string | null;
  readonly port: number;
  readonly channel: number;
  readonly notes: number;
  /** Keys that sound as notes, as ranges. Likely switches are left in: nothing is guessed away. */
  readonly keys: readonly Range[];
  readonly velocities: Range | null;
  readonly controllers: readonly {
    readonly number: number;
    readonly events: number;
    readonly range: Range;
  }[];
  /** Programs with the bank select in effect (CC0, CC32), in order of appearance, without repeats. */
  readonly programs: readonly {
    readonly bankMsb: number;
    readonly bankLsb: number;
    readonly program: number;
  }[];
  /** Keys that look like keyswitches: short notes well apart from the rest of the part (common practice). */
  readonly likelySwitches: readonly number[];
}
