import type { Generator } from './soundfont-bank.ts';

/**
 * The generators the demo bank uses, with amounts in musical units. Numbers and units: SoundFont
 * Technical Specification 2.04, section 8.1.2.
 */

/** Zones answer to these keys only; must be the first generator of its zone. */
export const keyRange = (lo: number, hi: number): Generator => [43, lo | (hi << 8)];

/** Zones answer to these velocities only; only `keyRange` may stand before it. */
export const velocityRange = (lo: number, hi: number): Generator => [44, lo | (hi << 8)];

/** From -500 (left) to 500 (right). */
export const pan = (tenthPercent: number): Generator => [17, tenthPercent];

/** Quieter by so many centibels (tenths of a decibel). */
export const attenuation = (centibels: number): Generator => [48, centibels];

/** Low-pass cutoff in absolute cents; 13500 is wide open. */
export const cutoff = (cents: number): Generator => [8, cents];

/** Loops for as long as the note sounds. */
export const looped: Generator = [54, 1];

/** A new note of the class ends the others of the same preset, as a closed hi-hat ends an open one. */
export const exclusiveClass = (number: number): Generator => [57, number];

export const attack = (seconds: number): Generator => [34, timecents(seconds)];
export const decay = (seconds: number): Generator => [36, timecents(seconds)];
export const release = (seconds: number): Generator => [38, timecents(seconds)];

/** The level after the decay, as centibels below full; 1000 is silence. */
export const sustain = (centibels: number): Generator => [37, centibels];

/** Tremolo: swing in centibels and speed in hertz. */
export const tremolo = (centibels: number, hertz: number): readonly Generator[] => [
  [13, centibels],
  [22, Math.round(1200 * Math.log2(hertz / 8.176))],
];

/** Vibrato that sets in late: swing in cents, wait in seconds, speed in hertz. */
export const vibrato = (cents: number, wait: number, hertz: number): readonly Generator[] => [
  [6, cents],
  [23, timecents(wait)],
  [24, Math.round(1200 * Math.log2(hertz / 8.176))],
];

const timecents = (seconds: number): number => Math.round(1200 * Math.log2(seconds));
