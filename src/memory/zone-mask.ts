/** One byte per zone of an instrument: 1 when it is loaded. */
export type ZoneMask = Uint8Array;

/** True when both masks, of one instrument, have the same zones loaded. */
export const sameZones = (a: ZoneMask, b: ZoneMask): boolean => a.every((one, z) => one === b[z]);
