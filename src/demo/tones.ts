import type { Dice } from './dice.ts';
import { frequency, sine, smallCents } from './waves.ts';

/** How a pitched sound is built. Levels are from 0 to 1. */
export interface Tone {
  /** Seconds before the loop, or of the whole sound when it has none. */
  readonly seconds: number;
  readonly looped: boolean;
  /** How much of the upper partials there is. */
  readonly bright: number;
  /** Level of the even partials: 1 like a string, near 0 like a stopped pipe. */
  readonly even: number;
  /** Seconds until the sound is at full level. */
  readonly rise: number;
  /** Level of the bright first moment that has died away before the loop. */
  readonly strike: number;
  /** Level of bow, breath or hammer noise in that first moment. */
  readonly noise: number;
}

/** A sound as recorded: points, loop, and what its key needs to be in tune. */
export interface Recording {
  readonly points: Int16Array;
  readonly loop: readonly [start: number, end: number];
  readonly cents: number;
}

/** Points per second of everything in the demo bank. */
export const rate = 22_050;

/** Shortest loop; long enough that rounding it to whole points costs about a cent. */
const shortestLoop = 700;

/** Points of the steady sound after the loop; the specification asks for 8 (2.04, section 6.3). */
const afterLoop = 16;

/** Plays `tone` at `key`. The dice choose phases, so two recordings of a key make a stereo pair. */
export const record = (key: number, tone: Tone, dice: Dice): Recording => {
  const hertz = frequency(key);
  const cycles = Math.ceil((shortestLoop * hertz) / rate);
  const period = Math.round((cycles * rate) / hertz);
  const { steady, sharp } = partials(cycles, period, tone, dice);

  const lead = Math.round(tone.seconds * rate);
  const length = tone.looped ? lead + period + afterLoop : lead;
  const moment = (tone.looped ? lead : lead / 2) - 8;
  const rise = Math.max(1, Math.min(Math.round(tone.rise * rate), moment));
  const shape = new Float64Array(length);
  for (let at = 0; at < length; at++) {
    const fade = at < moment ? (1 - at / moment) * (1 - at / moment) : 0;
    const strike = fade * (tone.strike * sharp[at % period]! + tone.noise * dice.signed());
    const left = tone.looped ? 1 : (1 - at / length) * (1 - at / length);
    shape[at] = Math.min(1, (at + 1) / rise) * left * (steady[at % period]! + strike);
  }
  return {
    points: toPoints(shape),
    loop: tone.looped ? [lead, lead + period] : [8, length - 8],
    cents: Math.round(-smallCents((cycles * rate) / period / hertz)),
  };
};

/** Rounds to 16 bits with the loudest point at four fifths of full scale. */
export const toPoints = (shape: Float64Array): Int16Array => {
  let peak = 0;
  for (const value of shape) peak = Math.max(peak, Math.abs(value));
  const points = new Int16Array(shape.length);
  for (let at = 0; at < points.length; at++) points[at] = Math.round((shape[at]! / peak) * 26_200);
  return points;
};

/**
 * One stretch of `cycles` cycles in `period` points that joins its own start without a step: as
 * bright as the tone, and as bright as can be.
 */
const partials = (
  cycles: number,
  period: number,
  tone: Tone,
  dice: Dice,
): { readonly steady: Float64Array; readonly sharp: Float64Array } => {
  const steady = new Float64Array(period);
  const sharp = new Float64Array(period);
  for (let partial = 1; partial <= 12; partial++) {
    const phase = dice.next();
    const turns = cycles * partial;
    if (partial > 1 && turns > period * 0.45) break; // above it lies the folding frequency
    const full = (partial % 2 === 0 ? tone.even : 1) / partial;
    const level = full * (tone.bright + (1 - tone.bright) / (partial * partial));
    for (let at = 0; at < period; at++) {
      const value = sine(((turns * at) % period) / period + phase);
      steady[at]! += level * value;
      sharp[at]! += full * value;
    }
  }
  return { steady, sharp };
};
