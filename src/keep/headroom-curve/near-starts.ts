import type { Instrument } from '../../instruments/instrument.ts';
import type { CopyUsage, UsageClass } from '../../playback/zone-usage.ts';
import type { Headroom } from '../../template/template.ts';
import type { DoubtSet } from '../../terms/doubt.ts';
import type { Range } from '../../terms/range.ts';
import { holdsWithout } from '../doubt-sets.ts';
import type { Reacher } from '../reacher.ts';

/** Headroom but for its keys. */
export type Room = Pick<Headroom, 'velocity' | 'controller'>;

export const noRoom: Room = { velocity: 0, controller: 0 };

/** No note comes near enough. */
export const never = 255;

/**
 * What one copy in one cue file reaches or comes near to, once for every headroom: a start is reached
 * with a room, and so many keys, if its distance is not larger than the keys.
 */
export interface NearStarts {
  /** Indices of the program's starts. */
  readonly starts: readonly number[];
  /** For each of them room by room the distance in keys, or {@link never}. */
  readonly distances: Uint8Array;
  /** Starts without a sound that are reached without any headroom. */
  readonly silent: readonly number[];
}

/**
 * Finds how near the notes of a copy come to each start.
 *
 * @param rooms the first is {@link noRoom}
 * @param keys the largest distance that matters
 * @param excluded doubts answered as the plain reading
 */
export const nearStarts = (
  { program }: Instrument,
  reacher: Reacher,
  copy: CopyUsage,
  { rooms, keys }: { readonly rooms: readonly Room[]; readonly keys: number },
  excluded: DoubtSet,
): NearStarts => {
  const found = new Map<number, Uint8Array>();
  const silent = new Set<number>();
  for (const one of copy.classes) {
    // What lies next to a switch that plays nothing was not played nearly.
    if (one.event !== 'change' && reacher.onlySwitches(one.key)) continue;
    rooms.forEach((room, at) => {
      for (const { index, start, doubts } of reacher.starts(copy, one, { keys, ...room })) {
        if (!holdsWithout(doubts, excluded)) continue;
        const distance = distanceTo(program.starts[index]!.keys, one);
        if (start.silent === true) {
          if (at === 0 && distance === 0) silent.add(index);
          continue;
        }
        let own = found.get(index);
        if (own === undefined) found.set(index, (own = new Uint8Array(rooms.length).fill(never)));
        if (distance < own[at]!) own[at] = distance;
      }
    });
  }
  const starts = [...found.keys()];
  const distances = new Uint8Array(starts.length * rooms.length);
  starts.forEach((start, i) => {
    distances.set(found.get(start)!, i * rooms.length);
  });
  return { starts, distances, silent: [...silent] };
};

/** Semitones between a note and the keys of a start; a controller has none. */
const distanceTo = ([lo, hi]: Range, { event, key }: UsageClass): number =>
  event === 'change' ? 0 : Math.max(0, lo - key, key - hi);
