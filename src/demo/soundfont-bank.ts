/**
 * A SoundFont bank as data: what `soundfont-writer.ts` turns into a file. Sections are those of the
 * SoundFont Technical Specification 2.04.
 */

/** One recorded sound: 16-bit points, its pitch, and where it may be looped. */
export interface BankSample {
  /** At most 19 characters of ASCII (section 7.10). */
  readonly name: string;
  /** Points per second. */
  readonly rate: number;
  /** The key at which the sample sounds as recorded. */
  readonly key: number;
  /** Cents to add on playback so that it sounds in tune. */
  readonly cents: number;
  readonly points: Int16Array;
  /** Points from the start of this sample; `end` is the first point after the loop. */
  readonly loop: readonly [start: number, end: number];
  readonly side: 'mono' | 'left' | 'right';
  /** Index of the other half of a stereo pair; 0 for mono. */
  readonly partner: number;
}

/** A generator operator (section 8.1.2) and its amount. */
export type Generator = readonly [operator: number, amount: number];

/** A modulator without a second source and with a linear transform (section 8.2). */
export interface Modulator {
  readonly source: number;
  readonly destination: number;
  readonly amount: number;
}

/** A zone; without a target it is the global zone and stands first. */
export interface BankZone {
  /** Without the closing instrument or sampleID generator, ranges first (sections 7.5 and 7.9). */
  readonly generators: readonly Generator[];
  readonly modulators?: readonly Modulator[];
  /** Index of the instrument (in a preset) or of the sample (in an instrument). */
  readonly target?: number;
}

export interface BankInstrument {
  readonly name: string;
  readonly zones: readonly BankZone[];
}

export interface BankPreset extends BankInstrument {
  readonly bank: number;
  readonly program: number;
}

export interface Bank {
  readonly name: string;
  readonly engine: string;
  readonly comment: string;
  readonly samples: readonly BankSample[];
  readonly instruments: readonly BankInstrument[];
  readonly presets: readonly BankPreset[];
}
