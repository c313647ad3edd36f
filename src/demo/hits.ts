import type { Dice } from './dice.ts';
import { rate, toPoints, type Recording } from './tones.ts';
import { sine } from './waves.ts';

/** How a percussion sound is built. Levels are from 0 to 1, pitches in hertz. */
export interface Hit {
  readonly seconds: number;
  /** Where the drum's pitch starts and ends; the fall is in the first part of the sound. */
  readonly from: number;
  readonly to: number;
  /** Level of the pitched part. */
  readonly body: number;
  /** Level of the noise. */
  readonly noise: number;
  /** 0 lets all of the noise through, near 1 only the highest part of it, as of a cymbal. */
  readonly thin: number;
  /** Level of a cluster of unrelated high partials, as of metal. */
  readonly metal: number;
}

/** Ratios without a common measure: what makes struck metal sound like no note. */
const cluster: readonly number[] = [1, 1.34, 1.71, 2.19, 2.83];

/** One stroke. `force` from 0 to 1 adds noise and shortens the way to full level. */
export const strike = (hit: Hit, force: number, dice: Dice): Recording => {
  const length = Math.round(hit.seconds * rate);
  const rise = Math.round(rate * (0.004 - 0.003 * force));
  const shape = new Float64Array(length);
  const phases = cluster.map(() => dice.next());
  let turns = 0;
  let heldBack = 0;
  for (let at = 0; at < length; at++) {
    const left = 1 - at / length;
    turns += (hit.to + (hit.from - hit.to) * left * left * left * left) / rate;
    const white = dice.signed();
    heldBack += (white - heldBack) * 0.3;
    const noise = white - hit.thin * heldBack;
    const metal = cluster.reduce(
      (sum, ratio, index) => sum + sine((at * hit.from * ratio) / rate + phases[index]!) / 5,
      0,
    );
    shape[at] =
      Math.min(1, (at + 1) / rise) *
      left *
      left *
      (hit.body * sine(turns) + (0.4 + 0.6 * force) * hit.noise * noise + hit.metal * metal);
  }
  return { points: toPoints(shape), loop: [8, length - 8], cents: 0 };
};
