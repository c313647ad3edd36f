import { viewOf } from './numbers.ts';
import type { Loop } from './sample-header.ts';

/** The bytes of an INST chunk. */
export const instBytes = 20;

/** The two ids that a loop names; null when neither loop is played. */
interface LoopMarkers {
  readonly begin: number;
  readonly end: number;
}

/** The sustain loop at byte 8, else the release loop at 14 (AIFF 1.3, "The Instrument Chunk"). */
export const loopMarkers = (inst: Uint8Array): LoopMarkers | null => {
  if (inst.length < instBytes) return null;
  const view = viewOf(inst);
  for (const at of [8, 14]) {
    const noLooping = view.getInt16(at) === 0;
    if (!noLooping) return { begin: view.getInt16(at + 2), end: view.getInt16(at + 4) };
  }
  return null;
};

/**
 * The loop between two markers (AIFF 1.3, "The Marker Chunk"). A marker stands between two frames,
 * before the one it numbers, so the last frame of a loop is the one before its end marker. Null when
 * one of them is not in `mark`.
 *
 * @param mark the MARK chunk's data, or as much of it as was read
 */
export const loopBetween = ({ begin, end }: LoopMarkers, mark: Uint8Array): Loop | null => {
  const places = new Map<number, number>();
  const view = viewOf(mark);
  const count = mark.length < 2 ? 0 : view.getUint16(0);
  let at = 2;
  for (let i = 0; i < count && at + 7 <= mark.length; i += 1) {
    const id = view.getInt16(at);
    if (!places.has(id)) places.set(id, view.getUint32(at + 2));
    // The name: a count, its characters, and a pad byte when that makes an odd number.
    const name = 1 + view.getUint8(at + 6);
    at += 6 + name + (name % 2);
  }
  const [first, behind] = [places.get(begin), places.get(end)];
  return first === undefined || behind === undefined ? null : { start: first, end: behind - 1 };
};
