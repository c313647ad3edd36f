import type { Range } from '../../../terms/range.ts';

/** Where a fade in leaves something to be heard: above `lo`; with both equal from there on. */
export const fadeIn = (lo: number, hi: number): Range | null => {
  if (lo > hi) return null;
  return [lo === hi ? lo : lo + 1, Infinity];
};

/** Where a fade out does: below `hi`; with both equal up to there. */
export const fadeOut = (lo: number, hi: number): Range | null => {
  if (lo > hi) return null;
  return [-Infinity, lo === hi ? hi : hi - 1];
};

/**
 * The keys or velocities at which a region's crossfades leave something to be heard (the open SFZ
 * documentation, `xfin_lokey` and the like: gain 0 up to `xfin_lo`, and from `xfout_hi` on). Both
 * limits equal: the louder reading. Limits the wrong way round say nothing.
 *
 * @param valueOf the value of an opcode, null where it is not given
 */
export const crossfadeRange = (
  valueOf: (name: string) => number | null,
  what: 'key' | 'vel',
): Range => {
  const [inLo, inHi] = [valueOf(`xfin_lo${what}`), valueOf(`xfin_hi${what}`)];
  const [outLo, outHi] = [valueOf(`xfout_lo${what}`), valueOf(`xfout_hi${what}`)];
  const rising = inLo === null && inHi === null ? null : fadeIn(inLo ?? 0, inHi ?? 0);
  const falling = outLo === null && outHi === null ? null : fadeOut(outLo ?? 127, outHi ?? 127);
  return [rising?.[0] ?? -Infinity, falling?.[1] ?? Infinity];
};
