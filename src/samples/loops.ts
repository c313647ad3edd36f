import type { HeaderRemark, Loop } from './sample-header.ts';
import { viewOf } from './numbers.ts';

/** The bytes of a `smpl` chunk that {@link smplLoop} looks at. */
export const smplBytes = 60;

/**
 * The first loop of a `smpl` chunk ("New Multimedia Data Types and Data Techniques" 3.0, "Sample
 * Chunk"): the count of loops at byte 28, the loops from byte 36, each with its first and its last
 * frame at 8 and 12. Null when there is none, or the chunk is too short for one.
 *
 * @param smpl the chunk's data, at least its first {@link smplBytes} when it has them
 */
export const smplLoop = (smpl: Uint8Array): Loop | null => {
  if (smpl.length < smplBytes) return null;
  const view = viewOf(smpl);
  if (view.getUint32(28, true) === 0) return null;
  return { start: view.getUint32(44, true), end: view.getUint32(48, true) };
};

/**
 * A loop as far as it lies in the sound. Some writers give the frame behind the last one as its end,
 * so a loop that begins inside is kept up to the last frame.
 */
export const loopInside = (
  loop: Loop | null,
  frames: number,
  remarks: HeaderRemark[],
): Loop | null => {
  if (loop === null) return null;
  const { start, end } = loop;
  if (start <= end && end < frames) return loop;
  remarks.push({ code: 'loop-outside', start, end });
  return start <= end && start < frames ? { start, end: frames - 1 } : null;
};
