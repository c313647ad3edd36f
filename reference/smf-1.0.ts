/**
 * Standard MIDI Files 1.0 (RP-001, revised February 1996): the variable-length quantity table and
 * the two worked example files, in hex as the standard prints them.
 *
 * Sections: "Conventions" (the table) and "Program Fragments and Example MIDI Files" (the files).
 * Looked up in two stored copies made apart from each other, which agree on every byte:
 * the transcription of RP-001 in gutenfries/playback (core_/docs/MIDI-spec.md) and the test data of
 * factor/factor (extra/midi/midi-tests.factor). What the files decode to is in
 * `smf-1.0-decoded.ts`.
 *
 * Misprints met in transcriptions, none of them in the data below:
 * - gutenfries/playback runs words into bytes (`00 60 96` for "00 60, 96 per quarter-note",
 *   `0 00 01` for "00 01") and drops the delta-time 96 of two rows of its table of events.
 * - tfwio/smfio ("SMF 1.1, 1999") gives three music tracks of the format 1 file other delta-times;
 *   two of them then no longer have the length they state. See {@link misprintedTracks}.
 * - Some texts name key 60 C3 in their comments, others C4: the bytes are the same.
 */

/** One row of the table: a number and the bytes that stand for it in a file. */
export interface VlqRow {
  readonly value: number;
  readonly bytes: readonly number[];
}

/** "Conventions": the twelve examples of variable-length quantities. */
export const vlqTable: readonly VlqRow[] = [
  { value: 0x00000000, bytes: [0x00] },
  { value: 0x00000040, bytes: [0x40] },
  { value: 0x0000007f, bytes: [0x7f] },
  { value: 0x00000080, bytes: [0x81, 0x00] },
  { value: 0x00002000, bytes: [0xc0, 0x00] },
  { value: 0x00003fff, bytes: [0xff, 0x7f] },
  { value: 0x00004000, bytes: [0x81, 0x80, 0x00] },
  { value: 0x00100000, bytes: [0xc0, 0x80, 0x00] },
  { value: 0x001fffff, bytes: [0xff, 0xff, 0x7f] },
  { value: 0x00200000, bytes: [0x81, 0x80, 0x80, 0x00] },
  { value: 0x08000000, bytes: [0xc0, 0x80, 0x80, 0x00] },
  { value: 0x0fffffff, bytes: [0xff, 0xff, 0xff, 0x7f] },
];

/** The largest value a variable-length quantity may have; it fills four bytes. */
export const vlqMaximum = 0x0fffffff;

/** The format 0 example: one track that holds everything. 81 bytes. */
export const format0Hex = `
  4D 54 68 64              # MThd
  00 00 00 06              # chunk length
  00 00                    # format 0
  00 01                    # one track
  00 60                    # 96 per quarter note

  4D 54 72 6B              # MTrk
  00 00 00 3B              # chunk length (59)
  00     FF 58 04 04 02 18 08   # time signature
  00     FF 51 03 07 A1 20      # tempo
  00     C0 05
  00     C1 2E
  00     C2 46
  00     92 30 60
  00     3C 60                  # running status
  60     91 43 40
  60     90 4C 20
  81 40  82 30 40               # two-byte delta-time
  00     3C 40                  # running status
  00     81 43 40
  00     80 4C 40
  00     FF 2F 00               # end of track
`;

/** The format 1 example: the same piece as a tempo track and three music tracks. 118 bytes. */
export const format1Hex = `
  4D 54 68 64              # MThd
  00 00 00 06              # chunk length
  00 01                    # format 1
  00 04                    # four tracks
  00 60                    # 96 per quarter note

  4D 54 72 6B              # MTrk: time signature and tempo
  00 00 00 14              # chunk length (20)
  00     FF 58 04 04 02 18 08   # time signature
  00     FF 51 03 07 A1 20      # tempo
  83 00  FF 2F 00               # end of track

  4D 54 72 6B              # MTrk: first music track
  00 00 00 10              # chunk length (16)
  00     C0 05
  81 40  90 4C 20
  81 40  4C 00                  # running status: note on, velocity 0
  00     FF 2F 00               # end of track

  4D 54 72 6B              # MTrk: second music track
  00 00 00 0F              # chunk length (15)
  00     C1 2E
  60     91 43 40
  82 20  43 00                  # running status
  00     FF 2F 00               # end of track

  4D 54 72 6B              # MTrk: third music track
  00 00 00 15              # chunk length (21)
  00     C2 46
  00     92 30 60
  00     3C 60                  # running status
  83 00  30 00                  # two-byte delta-time, running status
  00     3C 00                  # running status
  00     FF 2F 00               # end of track
`;

/** The sizes the standard states, for a check against the bytes above. */
export const exampleSizes = {
  format0: { fileBytes: 81, trackBytes: [0x3b] },
  format1: { fileBytes: 118, trackBytes: [0x14, 0x10, 0x0f, 0x15] },
} as const;

/** A track as a transcription has it, wrong against the standard. */
export interface MisprintedTrack {
  /** Which track of the format 1 file, counted from 0. */
  readonly track: number;
  /** The chunk length the transcription states. */
  readonly statedBytes: number;
  readonly hex: string;
}

/**
 * The music tracks of the format 1 file as tfwio/smfio prints them. Only track 2 still has its
 * stated length, but its note starts at tick 0 in place of 96.
 */
export const misprintedTracks: readonly MisprintedTrack[] = [
  { track: 1, statedBytes: 0x10, hex: '00 C0 05  00 90 4C 20  83 00 4C 00  00 FF 2F 00' },
  { track: 2, statedBytes: 0x0f, hex: '00 C1 2E  00 91 43 40  83 00 43 00  00 FF 2F 00' },
  {
    track: 3,
    statedBytes: 0x15,
    hex: '00 C2 46  00 92 30 60  82 20 3C 60  83 00 30 00  00 3C 00  00 FF 2F 00',
  },
];
