import type { InstrumentBytes } from '../keep/plan.ts';
import type { OtherNotes } from '../keep/other-notes.ts';
import type { Grain } from '../template/player.ts';
import type { DoubtName } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { CellWitness, OverviewRow } from './overview-map.ts';
import type { Playable } from './overview-playable.ts';

export interface OverviewInstrument {
  readonly id: string;
  readonly source: string;
  readonly machine: number;
  readonly player: string;
  readonly unloads: Grain;
  readonly zones: number;
  readonly zonesKept: number;
  readonly samples: number;
  readonly samplesKept: number;
  readonly bytes: InstrumentBytes;
  /** Note-ons sent to it. */
  readonly notes: number;
  readonly copies: readonly {
    readonly name: string;
    readonly notes: number;
    readonly zonesKept: number;
    /** What its route holds it to; null: switches decide. */
    readonly articulation: string | null;
  }[];
  /**
   * Where rules of the template change what is written before it reaches the instrument: limits are told
   * as it hears them. Rules as a person would recognise them.
   */
  readonly changes: readonly {
    readonly rules: readonly string[];
    /** Semitones added to each key. */
    readonly transpose: number;
    /** Velocities are multiplied by this. */
    readonly velocity: number;
    /** Controllers that arrive under another number. */
    readonly controllers: readonly (readonly [from: number, to: number])[];
  }[];
  /** Those of the notes that do not start anything plainly. */
  readonly otherNotes: OtherNotes;
  readonly microphones: readonly OverviewMicrophone[];
  /** Doubts that keep something of it, by zones kept for them. */
  readonly doubts: readonly {
    readonly name: DoubtName;
    readonly zones: number;
    /** Someone's word, by which it stays; null: nobody has answered. */
    readonly settled: 'accept' | null;
  }[];
  readonly pins: number;
  /** From the lowest key that starts anything to the highest; null: no key does. */
  readonly keys: Range | null;
  readonly articulations: readonly OverviewArticulation[];
  /** What cells refer to. */
  readonly witnesses: readonly CellWitness[];
}

/** A microphone that zones name, and what they take by themselves, without what a copy takes. */
export interface OverviewMicrophone {
  readonly name: string;
  readonly zones: number;
  readonly zonesKept: number;
  readonly bytes: { readonly full: number; readonly kept: number };
  /** It shares samples with what has another microphone, or another instrument: by itself it frees less. */
  readonly bytesAtMost: boolean;
}

export interface OverviewArticulation {
  readonly name: string;
  readonly switch: string | null;
  /** Notes that start it plainly, and what they play. */
  readonly notes: number;
  readonly keysPlayed: readonly Range[];
  readonly velocities: Range | null;
  readonly zones: number;
  readonly zonesKept: number;
  readonly bytes: { readonly full: number; readonly kept: number };
  /** On whichever copy it is written that can be asked for it. */
  readonly playable: Playable;
  /**
   * Where copies keep zones of their own: what each can still play of it (`copy` is an index into the
   * instrument's `copies`). Empty where all are alike. A copy that its route holds to another articulation
   * is left out.
   */
  readonly copies: readonly { readonly copy: number; readonly playable: Playable }[];
  readonly rows: readonly OverviewRow[];
}
