/**
 * Key numbers and pitch: middle C, concert A, and key -> frequency in twelve-tone equal temperament.
 *
 * Sources
 * - Key 60 is middle C: SoundFont Technical Specification 2.01, section 7.10 (byOriginalPitch gives
 *   60 to a recording of middle C, 261.62 Hz), looked up in gitpan/MIDI-SoundFont
 *   (doc/sfspec21.html); General MIDI System Level 1 says the same (from memory).
 * - The rows of {@link standardRows}: MIDI 1.0 Detailed Specification 4.2.1, MIDI Tuning, "Frequency
 *   data format" (page 48), looked up as quoted in the tests of the midi-msg crate.
 * - The rows of {@link pianoRows}: the table "Frequencies for equal-tempered scale, A4 = 440 Hz" of
 *   the Physics of Music Notes pages at phy.mtu.edu, looked up in the stored copy at
 *   auditoryneuroscience.com; its C4 is middle C, so its names map to keys by C4 = 60.
 *
 * Misprint: the standard's list of examples gives 440.0000 Hz the bytes 43 00 00 (midi-msg says so
 * too). Key 69 is 45 hex, and 43 hex would be two semitones low.
 */

export const middleC = 60;
export const concertA = { key: 69, hertz: 440 } as const;

/** The formula that every row below can be checked with; n is the key number. */
export const formula = 'f(n) = 440 * 2 ^ ((n - 69) / 12)';

/** A key and its frequency as a source prints it. */
export interface PitchRow {
  readonly key: number;
  readonly hertz: number;
}

/** Printed with four decimals. The last is 0.026 Hz (0.004 cents) high in the source itself. */
export const standardRows: readonly PitchRow[] = [
  { key: 0, hertz: 8.1758 },
  { key: 1, hertz: 8.662 },
  { key: 60, hertz: 261.6256 },
  { key: 69, hertz: 440 },
  { key: 120, hertz: 8372.019 },
  { key: 127, hertz: 12543.88 },
];

/** The smallest step of the frequency data format in cents: 100 / 2^14, printed as .0061. */
export const tuningStepCents = 0.0061;

/** Printed with two decimals. */
export const pianoRows: readonly PitchRow[] = [
  { key: 12, hertz: 16.35 }, // C0
  { key: 21, hertz: 27.5 }, // A0
  { key: 33, hertz: 55 }, // A1
  { key: 36, hertz: 65.41 }, // C2
  { key: 48, hertz: 130.81 }, // C3
  { key: 55, hertz: 196 }, // G3
  { key: 61, hertz: 277.18 }, // C#4
  { key: 64, hertz: 329.63 }, // E4
  { key: 67, hertz: 392 }, // G4
  { key: 72, hertz: 523.25 }, // C5
  { key: 81, hertz: 880 }, // A5
  { key: 84, hertz: 1046.5 }, // C6
];
