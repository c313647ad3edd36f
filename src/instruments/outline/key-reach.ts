import { toRanges, type Range } from '../../terms/range.ts';
import type { OutlineArticulation } from './outline.ts';

/** The keys that start a recorded key's zones. */
export interface KeyReach {
  /** The key that was recorded; where that is not known, the range it is for. */
  readonly place: number | Range;
  /** By the plain reading. */
  readonly plain: readonly Range[];
  /** Only under doubt `stretch`: none of {@link plain}. */
  readonly doubtful: readonly Range[];
}

const lowest = 0;
const highest = 127;

/** The number of places an articulation has zones at. */
export const placesOf = ({ sampled }: OutlineArticulation, keys: readonly Range[]): number =>
  sampled?.length ?? keys.length;

/**
 * Which keys each recorded key answers (design, section 8): in the order of the keys, or of the
 * ranges where it is not known which keys were recorded.
 *
 * @param keys the keys that can be played
 * @param borrow how many takes of each key are recordings of the keys around; null: not known, so
 *   the next ones may be played under `stretch`
 */
export const keyReaches = (
  { sampled, stretch }: OutlineArticulation,
  keys: readonly Range[],
  borrow: number | null,
): readonly KeyReach[] => {
  if (sampled === null) {
    return keys.map((range) => ({ place: range, plain: [range], doubtful: [] }));
  }
  const playable = keysIn(keys);
  const own = sampled.map((_, i) => ownKeys(sampled, i, stretch));
  // An odd one is a recording of the next key below or above, which is not known: both.
  const around = Math.ceil((borrow ?? 0) / 2);
  const perhaps = borrow === null ? 1 : around;
  return sampled.map((key, i) => {
    const near = (reach: number) => own.slice(Math.max(0, i - reach), i + reach + 1);
    const plain = new Set(near(around).flatMap((one) => keysIn([one.plain])));
    const wide = new Set(near(perhaps).flatMap((one) => keysIn([one.wide])));
    return {
      place: key,
      plain: toRanges(playable.filter((one) => plain.has(one))),
      doubtful: toRanges(playable.filter((one) => wide.has(one) && !plain.has(one))),
    };
  });
};

/** Keys of one recorded key, by the plain reading and by any; nothing of what can be played is left out. */
interface OwnKeys {
  readonly plain: Range;
  readonly wide: Range;
}

const ownKeys = (
  sampled: readonly number[],
  i: number,
  stretch: OutlineArticulation['stretch'],
): OwnKeys => {
  const key = sampled[i]!;
  const below = sampled[i - 1];
  const above = sampled[i + 1];
  // Up to half the way; a key just in the middle is the lower one's.
  const near: Range = [
    below === undefined ? lowest : Math.floor((below + key) / 2) + 1,
    above === undefined ? highest : Math.floor((key + above) / 2),
  ];
  switch (stretch) {
    case 'up': {
      const plain: Range = [
        below === undefined ? lowest : key,
        above === undefined ? highest : above - 1,
      ];
      return { plain, wide: plain };
    }
    case 'down': {
      const plain: Range = [
        below === undefined ? lowest : below + 1,
        above === undefined ? highest : key,
      ];
      return { plain, wide: plain };
    }
    case 'nearest': {
      const isMiddle = below !== undefined && (below + key) % 2 === 0 && near[0] > below + 1;
      return { plain: near, wide: isMiddle ? [near[0] - 1, near[1]] : near };
    }
    case null: {
      const wide: Range = [
        below === undefined ? lowest : below + 1,
        above === undefined ? highest : above - 1,
      ];
      return { plain: near, wide };
    }
  }
};

/** The keys of ranges, ascending, each once. */
export const keysIn = (ranges: readonly Range[]): readonly number[] => {
  const keys = new Set<number>();
  for (const [lo, hi] of ranges) for (let key = lo; key <= hi; key++) keys.add(key);
  return [...keys].sort((a, b) => a - b);
};
