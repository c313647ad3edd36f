/** Keyswitches of the outlined libraries, as MIDI key numbers. */

/** In the order of the outline's row from C-1, where key 60 is C3; one key of it is free. */
export const celloSwitches = { sustain: 12, legato: 14, spiccato: 15 } as const;

export const bassoonSwitches = { sustain: 12, staccato: 13 } as const;
