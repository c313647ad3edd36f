import type { Place } from '../terms/finding.ts';
import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';
import type { Settlements } from '../terms/settlement.ts';
import type { Reading } from '../instruments/reading.ts';
import type { PresetNumber } from '../instruments/soundfont/presets.ts';
import type { Machine } from './machine.ts';
import type { Player } from './player.ts';
import type { Route } from './route.ts';

/** `keepset.yaml` with its `tracks.csv`, read and checked (design, section 8). */
export interface Template {
  /** The file as the user named it; null where there is none and one instrument plays all. */
  readonly path: string | null;
  /** sha256 of the template and its table of tracks; null without a file. */
  readonly sha256: string | null;
  /** Patterns of the cue files, relative to the template's folder; none when not given. */
  readonly cues: readonly string[];
  /** Cue ids in playing order; null: the natural order of the cue numbers. */
  readonly reel: readonly string[] | null;
  /** `markers`: one file holds several cues, and its markers part them. */
  readonly split: 'markers' | null;
  /** The octave of key 60 in the template's own key names: 4 for C4. */
  readonly middleC: number;
  readonly machines: readonly Machine[];
  readonly instruments: readonly TemplateInstrument[];
  /** Rows of `tracks.csv` first, then `routes`, each in file order. */
  readonly routes: readonly Route[];
  /** Track-name words -> articulation names; keys as `fold` makes them. */
  readonly names: ReadonlyMap<string, string>;
  /** How far a switch and a note may have been moved against each other, in seconds. */
  readonly slack: number;
  readonly settle: Settlements;
  readonly headroom: Headroom;
  readonly pins: readonly Pin[];
  /** Warnings and notes met on the way. */
  readonly findings: readonly Finding[];
}

/** Room around what was played: semitones, and steps of velocity and controllers; 0: none. */
export interface Headroom {
  readonly keys: number;
  readonly velocity: number;
  readonly controller: number;
}

export const noHeadroom: Headroom = { keys: 0, velocity: 0, controller: 0 };

/** What the user keeps regardless. */
export interface Pin {
  readonly instrument: string;
  /** null: all articulations. */
  readonly articulation: string | null;
  /** null: all keys. */
  readonly keys: Range | null;
  /** null: all velocities. */
  readonly velocities: Range | null;
  /** Where it stands; null for one from the command line. */
  readonly at: Place | null;
}

export interface TemplateInstrument {
  readonly id: string;
  /** The source as the user wrote it: the path, and `#bank:program` for one preset. */
  readonly written: string;
  readonly source: InstrumentSource;
  /** Those that are loaded; null: all that the definition names. */
  readonly microphones: readonly string[] | null;
  /** Machine id. */
  readonly machine: string;
  readonly player: Player;
  /** Answers that hold for this instrument, over those of the whole template. */
  readonly settle: Settlements;
  readonly measured: readonly Reading[];
  readonly at: Place;
}

/** Where an instrument's definition is; paths are relative to the template's folder, with `/`. */
export type InstrumentSource =
  | { readonly kind: 'soundfont'; readonly path: string; readonly preset: PresetNumber | null }
  | { readonly kind: 'sfz'; readonly path: string }
  | {
      readonly kind: 'zone-table';
      readonly path: string;
      /** The octave of key 60 in the table. */
      readonly middleC: number;
    }
  | { readonly kind: 'outline'; readonly path: string };
