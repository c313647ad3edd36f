import type { ControllerRange } from '../../notation/controllers.ts';
import type { SwitchTest } from '../../notation/switch.ts';
import type { Place } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';

/**
 * An outline as it was read (design, section 8): what a manual says of a library whose files can't be
 * read. `like` and what holds for the whole file are filled in; null stands for what is not known.
 */
export interface Outline {
  readonly path: string;
  /** The octave of key 60 in the file. */
  readonly middleC: number;
  readonly articulations: readonly OutlineArticulation[];
  /** What the player's display showed with nothing and with everything loaded. */
  readonly measured: { readonly empty: Measured | null; readonly full: Measured | null };
}

export interface OutlineArticulation {
  /** As the file spells it. */
  readonly name: string;
  readonly at: Place;
  readonly choice: Choice;
  /** Where the choice is written. */
  readonly choiceAt: Place;
  /** Keys it can be played on; null: not known, so any that is no switch. */
  readonly keys: readonly Range[] | null;
  readonly keysAt: Place;
  /** Keys that were recorded, ascending, none twice; null: not known. */
  readonly sampled: readonly number[] | null;
  /** Which keys a recorded one answers; null: not known. */
  readonly stretch: 'up' | 'down' | 'nearest' | null;
  /** Every combination of their layers is a layer; none: one layer. */
  readonly layers: readonly LayerAxis[];
  readonly roundRobins: RoundRobins;
  /** Length of each sample; null: not known. */
  readonly seconds: number | null;
  readonly sound: Sound;
  /** `[null]` where none is named. */
  readonly microphones: readonly (string | null)[];
  readonly when: When;
  readonly releases: Releases | null;
  readonly legato: Legato | null;
  /** What the player's display showed with this articulation alone; null: not known. */
  readonly measured: Measured | null;
}

/** What selects an articulation. */
export type Choice =
  | { readonly kind: 'switch'; readonly test: SwitchTest }
  /** It sounds whatever is chosen. */
  | { readonly kind: 'none' }
  /** The player picks it by itself: any note in range may start it. */
  | { readonly kind: 'player' }
  | { readonly kind: 'unknown' };

/** Layers that differ in one thing. */
export interface LayerAxis {
  /** A controller's number, 0-127. */
  readonly by: 'velocity' | number;
  readonly count: number;
  /** `count` of them, in the order written; null: their borders are not printed. */
  readonly ranges: readonly Range[] | null;
}

/** Takes that alternate on one key. */
export interface RoundRobins {
  /** At least 1. */
  readonly count: number;
  /**
   * How many of them are recordings of the keys around; fewer than `count`. null: not known, and all
   * of `count` may be the key's own.
   */
  readonly borrow: number | null;
}

/** How samples are stored; null: not known. */
export interface Sound {
  readonly rate: number | null;
  readonly bits: number | null;
  readonly channels: number | null;
}

/** What must hold at the note-on, beside the choice. */
export interface When {
  readonly velocity: Range | null;
  readonly controllers: readonly ControllerRange[];
  /** Channel pressure. */
  readonly pressure: Range | null;
  /** How many keys are down, this one included. */
  readonly held: Range | null;
}

export interface Releases {
  /** null: not known. */
  readonly event: 'release' | 'note-off' | null;
  readonly layers: readonly LayerAxis[];
  readonly roundRobins: RoundRobins;
  readonly seconds: number | null;
  readonly measured: Measured | null;
}

export interface Legato {
  /** Semitones in both directions that transitions were recorded over; null: not known. */
  readonly intervals: number | null;
  readonly layers: readonly LayerAxis[];
  readonly roundRobins: RoundRobins;
  readonly seconds: number | null;
  /** Seconds for which a key that was let go still counts as held; null: not known. */
  readonly overlap: number | null;
  /** Whether letting a key go plays back to one that is still held; null: not known. */
  readonly returns: boolean | null;
  readonly measured: Measured | null;
}

/** An amount on the player's display. */
export interface Measured {
  readonly bytes: number;
  readonly at: Place;
}
