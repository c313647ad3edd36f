import type { SampleRecord } from '../../instruments/soundfont/hydra.ts';
import type { AddressOffsets } from './address-offsets.ts';
import type { Interval } from './intervals.ts';

/** Points behind a sample that interpolation and loops may read (SoundFont 2.04, section 6.1). */
const guard = 46;

/** Valid points that a loop point needs on either side (6.3). */
const aroundLoop = 8;

/**
 * The points that a sample in the file needs: its own with the guard points, and its loop when that
 * lies no farther away than a guard. Loop points farther off are left to the synthesiser's own repair,
 * which asks whether they lie before or behind the sample; two points of room keep them before it.
 *
 * @param offsets of the zones that use it
 * @param points how many the sound of the bank has
 */
export const sampleCover = (
  { start, end, loopStart, loopEnd }: SampleRecord,
  offsets: readonly AddressOffsets[],
  points: number,
): Interval => {
  const isNear = (point: number): boolean => point >= start - guard && point <= end + guard;
  const loops = [loopStart, loopEnd].filter(isNear);
  let from = start;
  let to = end + guard;
  const widen = (first: number, last: number): void => {
    from = Math.min(from, first);
    to = Math.max(to, last);
  };
  for (const loop of loops) {
    if (loop < start || loop > end) widen(loop - aroundLoop, loop + aroundLoop);
  }
  if (Math.min(loopStart, loopEnd) < start - guard) widen(start - 2, to);
  for (const offset of offsets) {
    widen(start + offset.start, end + offset.end + guard);
    const moved = [
      ...(isNear(loopStart) ? [loopStart + offset.loopStart] : []),
      ...(isNear(loopEnd) ? [loopEnd + offset.loopEnd] : []),
    ];
    for (const loop of moved) {
      if (loop < start || loop > end) widen(loop - aroundLoop, loop + aroundLoop);
    }
  }
  return { from: Math.max(from, 0), to: Math.min(to, points) };
};
