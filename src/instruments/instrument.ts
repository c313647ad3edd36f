import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';
import type { Program } from './program.ts';
import type { FileReading } from './reading.ts';

/** A sample as its header describes it; the sound itself is never read. */
export interface Sample {
  /** The name the source uses (SoundFont: `"12:Oboe C5"`, header index and name). */
  readonly name: string;
  readonly frames: number;
  readonly channels: number;
  /** Bytes of one frame of one channel as the source stores it: 2, or 3 for 24 bits. */
  readonly width: number;
  /** True when the sound is in the file: false for ROM and broken headers, which cost no memory. */
  readonly present: boolean;
  /** Frames per second. */
  readonly rate: number;
  /**
   * What a frame is taken for where only the bytes of the sample are known: `frames`, `channels`,
   * `width` and `rate` then count single bytes. Absent elsewhere.
   */
  readonly assumedFrame?: { readonly channels: number; readonly width: number };
  /**
   * Its bytes are what the player shows with it loaded: the player's head, width and factor are in
   * them. Absent elsewhere.
   */
  readonly asLoaded?: true;
  /** The other half of a reciprocal stereo pair, an index into the samples; null without one. */
  readonly partner: number | null;
}

/** Samples mapped to keys, velocities and conditions. */
export interface Zone {
  /** The number the source knows it by (SoundFont: index in `ibag` over the whole file). */
  readonly id: number;
  /** Indices into {@link Instrument.samples}. */
  readonly samples: readonly number[];
  /** What groups zones that must be in one place for stereo partners (SoundFont: the `inst` record). */
  readonly group: number;
  /** A stable name for tables, whose rows may move; null where `id` is as good. */
  readonly key: string | null;
  /** The microphone it was recorded with; null where there is one for all. */
  readonly microphone: string | null;
  /** Whose turn it is; absent where it starts whenever its note does, or its format does not say. */
  readonly turn?: Turn;
}

/** How often the note of a zone comes round before the zone starts. */
export interface Turn {
  /** Notes in a round, of which it starts with one; at least 1. */
  readonly of: number;
  /** How likely it is to be picked then, above 0 to 1. */
  readonly chance: number;
}

/** The zones that one switch, program or name selects (SoundFont: a preset). */
export interface Articulation {
  /** SoundFont: `"0:48 Strings"`. */
  readonly name: string;
  /** What selects it, in words of the format; null when nothing does. */
  readonly switch: string | null;
  /**
   * The keys that select it, where others may be selected at the same time: by switches of their own,
   * or by the same keys. Absent where articulations exclude each other.
   */
  readonly switchKeys?: Range;
  /** Its player picks it by itself: no message asks for it. */
  readonly picked?: true;
  readonly layers: readonly Layer[];
}

/** The name of the articulation whose zones belong to all others too. */
export const everyArticulation = 'every articulation';

/** Zones of an articulation that share velocity and controller ranges. */
export interface Layer {
  readonly velocity: Range;
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
  /** Indices into {@link Instrument.zones}, ascending. */
  readonly zones: readonly number[];
}

/** An instrument's definition, read and compiled. */
export interface Instrument {
  /** Short name for reports: the file name without its ending, with `#bank:program` if given. */
  readonly id: string;
  /** The path as the user wrote it, with `#bank:program` if given. */
  readonly source: string;
  /** sha256 of what was read of it. */
  readonly sha256: string;
  /** bank: one copy per port, channels choose presets; single: each track plays its own copy. */
  readonly playedAs: 'bank' | 'single';
  readonly zones: readonly Zone[];
  readonly samples: readonly Sample[];
  readonly articulations: readonly Articulation[];
  readonly program: Program;
  /** For each start of the program the `pbag` index it goes through; SoundFont only. */
  readonly presetZones: readonly number[];
  /**
   * What a player's display showed, where the definition says so. Of two readings of one name that in
   * the template counts.
   */
  readonly readings?: readonly FileReading[];
  readonly findings: readonly Finding[];
}
