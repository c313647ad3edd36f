import { exclusive, type Timed } from './events.ts';

/** General MIDI system messages: 1 on, 2 off, 3 level 2 on (MIDI 1.0, Universal System Exclusive). */
export const generalMidi = (tick: number, what: 1 | 2 | 3, device = 0x7f): Timed =>
  exclusive(tick, 0x7e, device, 0x09, what);

/** A GS data set message: three bytes of address, a value, and what makes their sum 0 mod 128. */
const gsSet = (tick: number, device: number, address: readonly number[], value: number): Timed => {
  const sum = [...address, value].reduce((total, byte) => total + byte, 0);
  return exclusive(tick, 0x41, device, 0x42, 0x12, ...address, value, (128 - (sum % 128)) % 128);
};

export const gsReset = (tick: number, device = 0x10): Timed =>
  gsSet(tick, device, [0x40, 0x00, 0x7f], 0x00);

/** The opposite of {@link gsReset}. */
export const gsExit = (tick: number): Timed => gsSet(tick, 0x10, [0x40, 0x00, 0x7f], 0x7f);

/** A reset whose checksum is wrong by one. */
export const gsResetDamaged = (tick: number): Timed =>
  exclusive(tick, 0x41, 0x10, 0x42, 0x12, 0x40, 0x00, 0x7f, 0x00, 0x40);

/**
 * Makes a part play drums (1, 2) or not (0). Parts 1 to 9 are channels 1 to 9, part 0 is channel 10,
 * parts 10 to 15 are channels 11 to 16.
 */
export const rhythmPart = (tick: number, part: number, map: 0 | 1 | 2, device = 0x10): Timed =>
  gsSet(tick, device, [0x40, 0x10 | part, 0x15], map);

/** XG system on. The second byte holds the device in its low half: 0x10 is device 1 of 16. */
export const xgOn = (tick: number, device = 0x10): Timed =>
  exclusive(tick, 0x43, device, 0x4c, 0x00, 0x00, 0x7e, 0x00);

/** XG: all parameters back to what they were when it left the factory. */
export const xgAllReset = (tick: number): Timed =>
  exclusive(tick, 0x43, 0x10, 0x4c, 0x00, 0x00, 0x7f, 0x00);
