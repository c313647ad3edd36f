/**
 * Standard MIDI Files 1.0 (RP-001, revised February 1996): the smaller worked examples in its text.
 * Looked up in the transcription of RP-001 in gutenfries/playback (core_/docs/MIDI-spec.md).
 */

/** "Header Chunks", on `<division>`: thirty-frame time code with bit resolution. */
export const smpteDivision = { word: 0xe250, framesPerSecond: 30, ticksPerFrame: 80 } as const;

/** "Header Chunks": 25 frames a second times 40 ticks a frame makes every tick a millisecond. */
export const millisecondDivision = {
  word: 0xe728,
  framesPerSecond: 25,
  ticksPerFrame: 40,
} as const;

/** "Time Signature": 6/8 with a click every three eighths, 24 clocks a quarter, 72 a bar. */
export const sixEight = {
  hex: 'FF 58 04 06 03 24 08',
  numerator: 6,
  denominator: 8,
  clocksPerClick: 36,
  thirtySecondsPerQuarter: 8,
  clocksPerBar: 72,
} as const;

/** "Track Chunks": a system exclusive message sent as one, and as it stands in a file. */
export const wholeSysEx = {
  sentHex: 'F0 43 12 00 07 F7',
  storedHex: 'F0 05 43 12 00 07 F7',
} as const;

/** "Track Chunks": one message in three packets; the delta-times stand before the packets. */
export const splitSysEx = {
  storedHex: `
           F0 03 43 12 00
    81 48                       # 200-tick delta-time
           F7 06 43 12 00 43 12 00
    64                          # 100-tick delta-time
           F7 04 43 12 00 F7
  `,
  packets: [
    { tick: 0, sentHex: 'F0 43 12 00' },
    { tick: 200, sentHex: '43 12 00 43 12 00' },
    { tick: 300, sentHex: '43 12 00 F7' },
  ],
} as const;

/** "Calculating Delta Times": ticks to milliseconds at one tempo. */
export const tickTime = {
  ticks: 6144,
  ticksPerQuarter: 96,
  microsecondsPerQuarter: 500_000,
  milliseconds: 32_000,
} as const;

/** "Formats 0, 1, and 2": what a file that states neither tempo nor meter is taken to have. */
export const defaults = { beatsPerMinute: 120, numerator: 4, denominator: 4 } as const;
