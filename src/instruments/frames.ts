/** What is not said of a sample counts as: high rather than low, as is common practice for scores. */
export const assumed = { rate: 48_000, bits: 24, channels: 2 } as const;

/** Bytes of one frame of one channel, by bits: those that samples are stored with. */
export const widths: ReadonlyMap<number, number> = new Map([
  [16, 2],
  [24, 3],
  [32, 4],
]);

/** Rounded up, save for what is only the error of binary fractions: 1.1 s x 48 000 is 52 800. */
export const framesOf = (seconds: number, rate: number): number => {
  const frames = seconds * rate;
  const near = Math.round(frames);
  return Math.abs(frames - near) < 1e-6 ? near : Math.ceil(frames);
};
