/**
 * Standard MIDI Files 1.0 (RP-001, revised February 1996), "Program Fragments and Example MIDI
 * Files": what the two example files of `smf-1.0.ts` hold.
 *
 * Format 0: the standard's own table of events (delta-time, event code, data, comment), looked up
 * in the stored transcriptions named in `smf-1.0.ts`, with delta-times added up to ticks.
 * Format 1: the standard prints bytes only; decoded by hand from them, and equal to the values
 * given in factor/factor (extra/midi/midi-tests.factor).
 *
 * Ticks count from the start of the track. Channels count from 1, as the standard's comments do.
 */

/** One event of an example file, as stored: a note-on of velocity 0 stays a note-on. */
export type ExampleEvent =
  | {
      readonly tick: number;
      readonly type: 'time-signature';
      readonly numerator: number;
      /** The note value itself, 4 for a quarter: the file stores its power of two. */
      readonly denominator: number;
      /** MIDI clocks in a metronome click; 24 make a quarter note. */
      readonly clocksPerClick: number;
      readonly thirtySecondsPerQuarter: number;
    }
  | { readonly tick: number; readonly type: 'tempo'; readonly microsecondsPerQuarter: number }
  | {
      readonly tick: number;
      readonly type: 'program';
      readonly channel: number;
      readonly program: number;
    }
  | {
      readonly tick: number;
      readonly type: 'note-on' | 'note-off';
      readonly channel: number;
      readonly key: number;
      readonly velocity: number;
    }
  | { readonly tick: number; readonly type: 'end-of-track' };

/** An example file, decoded. */
export interface ExampleFile {
  readonly format: 0 | 1;
  readonly ticksPerQuarter: number;
  readonly tracks: readonly (readonly ExampleEvent[])[];
}

const meter: ExampleEvent = {
  tick: 0,
  type: 'time-signature',
  numerator: 4,
  denominator: 4,
  clocksPerClick: 24,
  thirtySecondsPerQuarter: 8,
};
const tempo: ExampleEvent = { tick: 0, type: 'tempo', microsecondsPerQuarter: 500_000 };

export const format0: ExampleFile = {
  format: 0,
  ticksPerQuarter: 96,
  tracks: [
    [
      meter,
      tempo,
      { tick: 0, type: 'program', channel: 1, program: 5 },
      { tick: 0, type: 'program', channel: 2, program: 46 },
      { tick: 0, type: 'program', channel: 3, program: 70 },
      { tick: 0, type: 'note-on', channel: 3, key: 48, velocity: 96 },
      { tick: 0, type: 'note-on', channel: 3, key: 60, velocity: 96 },
      { tick: 96, type: 'note-on', channel: 2, key: 67, velocity: 64 },
      { tick: 192, type: 'note-on', channel: 1, key: 76, velocity: 32 },
      { tick: 384, type: 'note-off', channel: 3, key: 48, velocity: 64 },
      { tick: 384, type: 'note-off', channel: 3, key: 60, velocity: 64 },
      { tick: 384, type: 'note-off', channel: 2, key: 67, velocity: 64 },
      { tick: 384, type: 'note-off', channel: 1, key: 76, velocity: 64 },
      { tick: 384, type: 'end-of-track' },
    ],
  ],
};

export const format1: ExampleFile = {
  format: 1,
  ticksPerQuarter: 96,
  tracks: [
    [meter, tempo, { tick: 384, type: 'end-of-track' }],
    [
      { tick: 0, type: 'program', channel: 1, program: 5 },
      { tick: 192, type: 'note-on', channel: 1, key: 76, velocity: 32 },
      { tick: 384, type: 'note-on', channel: 1, key: 76, velocity: 0 },
      { tick: 384, type: 'end-of-track' },
    ],
    [
      { tick: 0, type: 'program', channel: 2, program: 46 },
      { tick: 96, type: 'note-on', channel: 2, key: 67, velocity: 64 },
      { tick: 384, type: 'note-on', channel: 2, key: 67, velocity: 0 },
      { tick: 384, type: 'end-of-track' },
    ],
    [
      { tick: 0, type: 'program', channel: 3, program: 70 },
      { tick: 0, type: 'note-on', channel: 3, key: 48, velocity: 96 },
      { tick: 0, type: 'note-on', channel: 3, key: 60, velocity: 96 },
      { tick: 384, type: 'note-on', channel: 3, key: 48, velocity: 0 },
      { tick: 384, type: 'note-on', channel: 3, key: 60, velocity: 0 },
      { tick: 384, type: 'end-of-track' },
    ],
  ],
};

/** A note of the example piece, from its start to its end. */
export interface ExampleNote {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  readonly start: number;
  readonly end: number;
}

/** The piece both files hold: four notes, all of them ending with the first bar (tick 384). */
export const exampleNotes: readonly ExampleNote[] = [
  { channel: 1, key: 76, velocity: 32, start: 192, end: 384 },
  { channel: 2, key: 67, velocity: 64, start: 96, end: 384 },
  { channel: 3, key: 48, velocity: 96, start: 0, end: 384 },
  { channel: 3, key: 60, velocity: 96, start: 0, end: 384 },
];
