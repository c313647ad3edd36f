import type { Division } from '../midi/score.ts';

/**
 * What makes keys look like keyswitches (common practice; no standard says it): a group at the bottom
 * or at the top of a part,
 *
 * - at least an octave away from the rest of the part,
 * - of few keys, within two octaves,
 * - played less often than the rest,
 * - and only in short notes: shorter than an eighth note, or than 0.15 s where the file counts
 *   frames and not beats.
 *
 * Parts on the percussion channel of General MIDI have none: there a lone cymbal far above the drums is
 * no switch. It is a remark for people. Nothing is planned on it.
 */
export const switchRule = {
  /** Semitones between the group and the rest. */
  apart: 12,
  /** Different keys in the group. */
  mostKeys: 12,
  /** Semitones from the lowest to the highest key of the group. */
  widest: 24,
  /** Fraction of a quarter note. */
  shorterThanQuarters: 0.5,
  shorterThanSeconds: 0.15,
} as const;

/** Ticks from which on a note is not short. */
export const shortNoteTicks = (division: Division): number =>
  division.kind === 'metrical'
    ? division.ticksPerQuarter * switchRule.shorterThanQuarters
    : division.framesPerSecond * division.ticksPerFrame * switchRule.shorterThanSeconds;

const notesOn = (keys: readonly number[], counts: ArrayLike<number>): number =>
  keys.reduce((sum, key) => sum + (counts[key] ?? 0), 0);

/** The keys from the edge inward up to the first wide gap; none when there is no such gap. */
const edgeGroup = (fromEdge: readonly number[]): readonly number[] => {
  const end = fromEdge.findIndex(
    (key, i) => Math.abs((fromEdge[i + 1] ?? key) - key) >= switchRule.apart,
  );
  return end === -1 ? [] : fromEdge.slice(0, end + 1);
};

const extent = (keys: readonly number[]): number => Math.max(...keys) - Math.min(...keys);

/**
 * Keys of a part that look like keyswitches, ascending.
 *
 * @param counts notes on each key, 0-127
 * @param isShort true when all notes on a key are short
 */
export const likelySwitches = (
  counts: ArrayLike<number>,
  isShort: (key: number) => boolean,
): readonly number[] => {
  const played = Array.from({ length: counts.length }, (_, key) => key).filter(
    (key) => (counts[key] ?? 0) > 0,
  );
  const all = notesOn(played, counts);
  return [edgeGroup(played), edgeGroup(played.toReversed())]
    .filter(
      (group) =>
        group.length > 0 &&
        group.length <= switchRule.mostKeys &&
        extent(group) <= switchRule.widest &&
        notesOn(group, counts) * 2 < all &&
        group.every(isShort),
    )
    .flat()
    .sort((a, b) => a - b);
};
