/** An instrument as no format has it: what SFZ, a SoundFont and a zone table can all be written from. */

export type Limits = readonly [lowest: number, highest: number];

/** A recording: 16 bit, mono. */
export interface ModelSample {
  readonly frames: number;
  /** Frames a second. */
  readonly rate: number;
}

/** Sounds while a controller is within its limits at some time of the note. */
export interface ModelFade {
  readonly controller: number;
  readonly limits: Limits;
}

export interface ModelZone {
  readonly keys: Limits;
  readonly velocities: Limits;
  /** Index into {@link Model.articulations}; null: plays whatever was switched. */
  readonly articulation: number | null;
  /** One for each controller. */
  readonly fades: readonly ModelFade[];
  /** `release`: key and pedals up; `note-off`: key up, whatever pedals do. */
  readonly starts: 'note-on' | 'release' | 'note-off';
  /** Index into {@link Model.samples}. */
  readonly sample: number;
}

export interface Model {
  /** Named by their number, `tone-0` and so on. Zones use all of them, first 0, then 1. */
  readonly samples: readonly ModelSample[];
  /** None, or at least two that zones use; each with a keyswitch of its own. */
  readonly articulations: readonly { readonly name: string; readonly switchKey: number }[];
  readonly zones: readonly ModelZone[];
}

export const sampleName = (sample: number): string => `tone-${String(sample)}`;
