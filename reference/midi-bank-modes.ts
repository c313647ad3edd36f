/**
 * What sets the bank mode of a synthesiser, and the controllers and registered parameters that go
 * with it. Messages are given as sent; in a Standard MIDI File a length follows F0 (RP-001).
 *
 * Sources
 * - Universal messages: MIDI 1.0, table 4 "Universal System Exclusive Messages", non-real time (7E),
 *   sub-ID 09; looked up in the copy of that table in tfwio/smfio and, in bytes, in the FluidSynth
 *   source (src/midi/fluid_midi.h, src/synth/fluid_synth.c).
 * - GS and XG messages: no open standard has them. Looked up in the FluidSynth source
 *   (fluid_synth_sysex_gs_dt1, fluid_synth_sysex_xg) and, XG only, in TiMidity's (readmidi.c).
 * - Controllers: MIDI 1.0, table 3 "Control Change Messages", looked up in stored copies of that
 *   table. Registered parameters: table 3a, names as revised by RP-022, looked up likewise.
 *
 * Misprints met: one list gives GM system off the sub-ID 00 (it is 02) and another gives GM2 system
 * on 02 (it is 03); old versions of fluid_midi.h give the legato footswitch 69 (it is 68).
 */

/** A message that sets or leaves a bank mode. */
export interface ModeMessage {
  readonly name: string;
  /** All bytes as sent, F0 and F7 included. */
  readonly bytes: readonly number[];
}

/** The device number (second or third byte) that addresses every device. */
export const everyDevice = 0x7f;

/** The device number that GS and XG messages carry as a rule (common practice). */
export const usualDevice = 0x10;

export const gmSystemOn: ModeMessage = {
  name: 'GM system on',
  bytes: [0xf0, 0x7e, 0x7f, 0x09, 0x01, 0xf7],
};
export const gmSystemOff: ModeMessage = {
  name: 'GM system off',
  bytes: [0xf0, 0x7e, 0x7f, 0x09, 0x02, 0xf7],
};
export const gm2SystemOn: ModeMessage = {
  name: 'GM2 system on',
  bytes: [0xf0, 0x7e, 0x7f, 0x09, 0x03, 0xf7],
};
/** Address 40 00 7F, data 00. */
export const gsReset: ModeMessage = {
  name: 'GS reset',
  bytes: [0xf0, 0x41, 0x10, 0x42, 0x12, 0x40, 0x00, 0x7f, 0x00, 0x41, 0xf7],
};
/** Address 40 00 7F, data 7F: back to General MIDI (checksum worked out by the rule). */
export const gsExit: ModeMessage = {
  name: 'GS exit',
  bytes: [0xf0, 0x41, 0x10, 0x42, 0x12, 0x40, 0x00, 0x7f, 0x7f, 0x42, 0xf7],
};
/** Address 00 00 7E, data 00. No checksum. FluidSynth takes 00 00 7F (all parameters) alike. */
export const xgSystemOn: ModeMessage = {
  name: 'XG system on',
  bytes: [0xf0, 0x43, 0x10, 0x4c, 0x00, 0x00, 0x7e, 0x00, 0xf7],
};

export const modeMessages: readonly ModeMessage[] = [
  gmSystemOn,
  gmSystemOff,
  gm2SystemOn,
  gsReset,
  gsExit,
  xgSystemOn,
];

/**
 * GS messages: the checksum makes the sum of address, data and checksum a multiple of 128. Add up
 * the bytes from `from` to the one before the checksum; the checksum is (128 - sum mod 128) mod 128.
 * FluidSynth leaves out the last mod, so it refuses a correct 00.
 */
export const gsChecksum = { from: 5, checksumFromEnd: 2, modulus: 128 } as const;

/**
 * More GS messages that carry a checksum: parts set to drum map 2. The bytes, checksums included, are
 * looked up as quoted in the comments of two public programs, which name them channels 9 and 11.
 */
export const gsRhythmParts: readonly ModeMessage[] = [
  {
    name: 'GS rhythm part, block 9',
    bytes: [0xf0, 0x41, 0x10, 0x42, 0x12, 0x40, 0x19, 0x15, 0x02, 0x10, 0xf7],
  },
  {
    name: 'GS rhythm part, block A',
    bytes: [0xf0, 0x41, 0x10, 0x42, 0x12, 0x40, 0x1a, 0x15, 0x02, 0x0f, 0xf7],
  },
];

/**
 * GS address 40 1x 15 (use for rhythm part): block x, 0 to F, to channel, counted from 1. Channel 10
 * comes first. Source: fluid_synth_sysex_gs_dt1. Data 00 makes the part melodic, 01 and 02 a drum map.
 */
export const gsBlockChannels: readonly number[] = [
  10, 1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 14, 15, 16,
];

/** Bank numbers (controller 0) that choose drums on any channel, by mode. From memory. */
export const drumBanks = { gm2: [120], gm2Melodic: [121], xg: [126, 127] } as const;

/** A controller or channel mode message of MIDI 1.0, table 3. */
export interface ControllerName {
  readonly number: number;
  readonly name: string;
  /** What the number is: a value, a switch (0-63 off, 64-127 on) or a channel mode message. */
  readonly kind: 'value' | 'switch' | 'mode';
}

export const controllers: readonly ControllerName[] = [
  { number: 0, name: 'Bank Select', kind: 'value' },
  { number: 6, name: 'Data Entry MSB', kind: 'value' },
  { number: 32, name: 'LSB for Control 0 (Bank Select)', kind: 'value' },
  { number: 38, name: 'LSB for Control 6 (Data Entry)', kind: 'value' },
  { number: 64, name: 'Damper Pedal on/off (Sustain)', kind: 'switch' },
  { number: 66, name: 'Sostenuto On/Off', kind: 'switch' },
  { number: 67, name: 'Soft Pedal On/Off', kind: 'switch' },
  { number: 68, name: 'Legato Footswitch', kind: 'switch' },
  { number: 100, name: 'Registered Parameter Number (RPN) - LSB', kind: 'value' },
  { number: 101, name: 'Registered Parameter Number (RPN) - MSB', kind: 'value' },
  { number: 120, name: 'All Sound Off', kind: 'mode' },
  { number: 121, name: 'Reset All Controllers', kind: 'mode' },
  { number: 122, name: 'Local Control On/Off', kind: 'mode' },
  { number: 123, name: 'All Notes Off', kind: 'mode' },
  { number: 124, name: 'Omni Mode Off (+ all notes off)', kind: 'mode' },
  { number: 125, name: 'Omni Mode On (+ all notes off)', kind: 'mode' },
  { number: 126, name: 'Mono Mode On (+ poly off, + all notes off)', kind: 'mode' },
  { number: 127, name: 'Poly Mode On (+ mono off, + all notes off)', kind: 'mode' },
];

/** Table 3: a switch is on from this value. */
export const switchOnFrom = 64;

/** Registered parameters of table 3a; chosen with controllers 101 and 100, set with 6 and 38. */
export const registeredParameters = [
  { msb: 0, lsb: 0, name: 'Pitch Bend Sensitivity' },
  { msb: 0, lsb: 1, name: 'Channel Fine Tuning' },
  { msb: 0, lsb: 2, name: 'Channel Coarse Tuning' },
  { msb: 0x7f, lsb: 0x7f, name: 'Null' },
] as const;

/**
 * Channel coarse tuning: controller 6 holds semitones, 64 being none; controller 38 is not used.
 * (MIDI 1.0, registered parameters: the range is from memory.)
 */
export const coarseTuning: readonly { readonly data: number; readonly semitones: number }[] = [
  { data: 0x00, semitones: -64 },
  { data: 0x34, semitones: -12 },
  { data: 0x40, semitones: 0 },
  { data: 0x4c, semitones: 12 },
  { data: 0x7f, semitones: 63 },
];
