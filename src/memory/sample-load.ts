import type { Sample } from '../instruments/instrument.ts';
import type { Head, Player } from '../template/player.ts';
import { sampleBytes } from './sample-memory.ts';

/**
 * Bytes a sample really takes in memory by the player: what is computed by the player's factor. What
 * was read off the player's display is that already.
 */
export const realBytes = (sample: Sample, player: Player): number =>
  sample.asLoaded === true ? sampleBytes(sample) : player.factor * loadBytes(sample, player);

/**
 * Bytes a sample takes in memory by the player (design, section 7): whole, frames x channels x bytes
 * of a sample point; streamed, its head and never more than the whole. 0 for what is not there.
 */
export const loadBytes = (sample: Sample, { loads, head, width }: Player): number => {
  if (!sample.present) return 0;
  if (sample.asLoaded === true) return sampleBytes(sample);
  const { frames, channels, rate, assumedFrame } = sample;
  const real = assumedFrame ?? sample;
  const growth = width === 'source' ? 1 : width / real.width;
  const unitBytes = channels * sample.width * growth;
  const whole = Math.ceil(frames * unitBytes);
  if (loads === 'whole' || head === null) return whole;
  return Math.min(whole, headBytes(head, rate, unitBytes, real.channels * real.width * growth));
};

/**
 * @param rate units a second: frames, or bytes where no more is known of a sample
 * @param unitBytes bytes that a unit takes in memory
 */
const headBytes = (head: Head, rate: number, unitBytes: number, frameBytes: number): number => {
  switch (head.unit) {
    case 'bytes':
      return head.bytes;
    case 'frames':
      return head.frames * frameBytes;
    case 'seconds':
      return Math.ceil(Math.ceil(plainProduct(head.seconds, rate)) * unitBytes);
  }
};

/** Seconds are decimal fractions: 0.07 s at 48 000 is 3 360 frames, not the binary 3 360.0000000000005. */
const plainProduct = (seconds: number, rate: number): number =>
  Number((seconds * rate).toPrecision(12));
