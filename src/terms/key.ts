import type { Range } from './range.ts';

const pitches = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const;

/**
 * The name of a key, with sharps. Programs disagree on the octave, so a report prints the number
 * beside it: {@link keyLabel}.
 *
 * @param key MIDI key number, 0-127
 * @param middleC the octave that key 60 bears: 4 (C4), 3 (C3) or 5
 * @example keyName(61) // 'C#4'
 * @example keyName(0) // 'C-1'
 */
export const keyName = (key: number, middleC = 4): string =>
  `${pitches[((key % 12) + 12) % 12] ?? ''}${String(Math.floor(key / 12) - 5 + middleC)}`;

/** A key with its number. @example keyLabel(60) // 'C4 (60)' */
export const keyLabel = (key: number, middleC = 4): string =>
  `${keyName(key, middleC)} (${String(key)})`;

/**
 * A range of keys with its numbers; a single key as {@link keyLabel}.
 *
 * @example keyRangeLabel([36, 76]) // 'C2-E5 (36-76)'
 */
export const keyRangeLabel = ([lo, hi]: Range, middleC = 4): string =>
  lo === hi
    ? keyLabel(lo, middleC)
    : `${keyName(lo, middleC)}-${keyName(hi, middleC)} (${String(lo)}-${String(hi)})`;
