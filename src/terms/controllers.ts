/** Controller numbers the engine gives a meaning to (MIDI 1.0 Detailed Specification, table III). */
export const controllers = {
  bankSelectMsb: 0,
  dataEntryMsb: 6,
  bankSelectLsb: 32,
  dataEntryLsb: 38,
  sustain: 64,
  sostenuto: 66,
  legato: 68,
  dataIncrement: 96,
  dataDecrement: 97,
  nrpnLsb: 98,
  nrpnMsb: 99,
  rpnLsb: 100,
  rpnMsb: 101,
  allSoundOff: 120,
  resetAllControllers: 121,
  allNotesOff: 123,
  omniOff: 124,
  omniOn: 125,
  monoOn: 126,
  polyOn: 127,
} as const;

/** A pedal or switch is down from 64 on (MIDI 1.0, controllers 64 to 69). */
export const isDown = (value: number): boolean => value >= 64;

/** What a controller is at power-on: volume 100, pan centre, expression full (General MIDI 1, developer guidelines), else 0. */
export const powerOnValue = (controller: number): number =>
  ({ 7: 100, 10: 64, 11: 127 })[controller] ?? 0;

/**
 * What Reset All Controllers (CC121) sets a controller to, or null for those it leaves alone
 * (MIDI Manufacturers Association, RP-015).
 */
export const resetValue = (controller: number): number | null =>
  ({ 1: 0, 11: 127, 64: 0, 65: 0, 66: 0, 67: 0 })[controller] ?? null;
