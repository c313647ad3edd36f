import { attack, cutoff, decay, looped, release, sustain, vibrato } from './generators.ts';
import type { Generator, Modulator } from './soundfont-bank.ts';
import type { Tone } from './tones.ts';

/** One dynamic of an instrument: the velocities up to `top`, down to the next softer one. */
export interface Layer {
  readonly mark: 'pp' | 'p' | 'mf' | 'f' | 'ff';
  readonly top: number;
  readonly bright: number;
}

/** A pitched instrument of the bank: its samples stand every three semitones. */
export interface Recipe {
  readonly name: string;
  /** Starts the sample names, at most 7 letters. */
  readonly short: string;
  readonly keys: readonly [lo: number, hi: number];
  readonly layers: readonly Layer[];
  readonly stereo: boolean;
  readonly tone: Omit<Tone, 'bright'>;
  /** Generators of the instrument's global zone. */
  readonly shared: readonly Generator[];
  readonly modulators?: readonly Modulator[];
}

const two: readonly Layer[] = [
  { mark: 'p', top: 72, bright: 0.15 },
  { mark: 'f', top: 127, bright: 0.55 },
];
const three: readonly Layer[] = [
  { mark: 'p', top: 54, bright: 0.1 },
  { mark: 'mf', top: 94, bright: 0.35 },
  { mark: 'ff', top: 127, bright: 0.75 },
];
const four: readonly Layer[] = [
  { mark: 'pp', top: 36, bright: 0.05 },
  { mark: 'p', top: 68, bright: 0.15 },
  { mark: 'f', top: 101, bright: 0.35 },
  { mark: 'ff', top: 127, bright: 0.6 },
];

/** The modulation wheel opens the filter: source 0x81 is controller 1, destination 8 the cutoff. */
const wheelOpensFilter: readonly Modulator[] = [{ source: 0x81, destination: 8, amount: 2400 }];

const bowed: Recipe['tone'] = {
  ...{ seconds: 0.08, looped: true, even: 0.9, rise: 0.05, strike: 0.15, noise: 0.12 },
};
const blown: Recipe['tone'] = { ...bowed, seconds: 0.1, even: 0.8, rise: 0.025, noise: 0.2 };
const plucked: Recipe['tone'] = {
  ...{ seconds: 0.13, looped: false, even: 0.7, rise: 0.002, strike: 0.6, noise: 0.15 },
};

/** A note that dies away by itself: full length for a key left down, and the damper. */
const dying = (seconds: number, damper: number): readonly Generator[] => [
  looped,
  decay(seconds),
  sustain(1000),
  release(damper),
];

export const recipes: readonly Recipe[] = [
  {
    ...{ name: 'Piano', short: 'Pno', keys: [21, 108], layers: three, stereo: true },
    tone: { ...plucked, seconds: 0.065, looped: true, strike: 0.5, noise: 0.25 },
    shared: dying(7, 0.25),
  },
  {
    ...{ name: 'Celesta', short: 'Cel', keys: [60, 108], layers: two, stereo: false },
    tone: { ...plucked, seconds: 0.1, looped: true, even: 0.2, strike: 0.7, noise: 0.1 },
    shared: dying(2.5, 0.4),
  },
  {
    ...{ name: 'Squeezebox', short: 'Sqz', keys: [53, 89], layers: two, stereo: false },
    tone: { ...blown, even: 1, strike: 0.05, noise: 0.05 },
    shared: [looped, release(0.12)],
  },
  {
    ...{ name: 'Cb Arco', short: 'Cb', keys: [28, 55], layers: two, stereo: false },
    tone: bowed,
    shared: [looped, release(0.3)],
    modulators: wheelOpensFilter,
  },
  {
    ...{ name: 'Strings Pizz', short: 'Str Piz', keys: [36, 91], layers: two, stereo: false },
    tone: plucked,
    shared: [release(0.2)],
  },
  {
    ...{ name: 'Harp', short: 'Harp', keys: [24, 103], layers: two, stereo: false },
    tone: { ...plucked, seconds: 0.075, looped: true, strike: 0.35, noise: 0.08 },
    shared: dying(4, 1.5),
  },
  {
    ...{ name: 'Timpani', short: 'Timp', keys: [36, 57], layers: four, stereo: false },
    tone: { ...plucked, seconds: 0.2, even: 0.4, strike: 0.5, noise: 0.4 },
    shared: [release(0.8)],
  },
  {
    ...{ name: 'Strings Sus', short: 'Str Sus', keys: [36, 96], layers: three, stereo: true },
    tone: bowed,
    shared: [looped, cutoff(10_800), attack(0.04), release(0.35), ...vibrato(9, 0.4, 5.2)],
    modulators: wheelOpensFilter,
  },
  {
    ...{ name: 'Strings Stac', short: 'Str Stc', keys: [36, 96], layers: two, stereo: true },
    tone: { ...bowed, seconds: 0.1, looped: false, rise: 0.008, strike: 0.4, noise: 0.3 },
    shared: [release(0.15)],
  },
  {
    ...{ name: 'Strings Sus Sord', short: 'Str Srd', keys: [43, 91], layers: two, stereo: false },
    tone: { ...bowed, even: 0.5, strike: 0.05 },
    shared: [looped, cutoff(9_600), attack(0.06), release(0.4)],
  },
  {
    ...{ name: 'Choir Ah', short: 'Chr', keys: [45, 84], layers: two, stereo: true },
    tone: { ...bowed, seconds: 0.1, even: 0.6, strike: 0, noise: 0.06 },
    shared: [looped, attack(0.12), release(0.6), ...vibrato(12, 0.6, 4.6)],
  },
  {
    ...{ name: 'Horns a4', short: 'Hn', keys: [34, 77], layers: three, stereo: false },
    tone: { ...blown, even: 1, rise: 0.04 },
    shared: [looped, release(0.25)],
  },
  {
    ...{ name: 'Oboe', short: 'Ob', keys: [58, 91], layers: two, stereo: false },
    tone: { ...blown, even: 1, noise: 0.08 },
    shared: [looped, release(0.18), ...vibrato(10, 0.3, 5.6)],
  },
  {
    ...{ name: 'Flute', short: 'Fl', keys: [60, 96], layers: three, stereo: false },
    tone: { ...blown, even: 0.35, noise: 0.35 },
    shared: [looped, release(0.2), ...vibrato(12, 0.35, 5)],
  },
];
