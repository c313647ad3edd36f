/** Which keys a recording of an outline answers: playing ranges, stretching and borrowed takes. */
import { doubtBits, minimal, plain } from './doubts.ts';
import { switchKeysOf } from './outline-data.ts';
import type { Limits, OutlineArticulation, OutlineData } from './outline-data.ts';

const { stretch: neighbour } = doubtBits;

/** The playing ranges in the order written; left out: every key that is no switch, as ranges. */
export function playedRanges(outline: OutlineData, { keys }: OutlineArticulation): Limits[] {
  if (keys !== null) return [...keys];
  const switchKeys = switchKeysOf(outline);
  const ranges: [number, number][] = [];
  for (let key = 0; key <= 127; key++) {
    if (switchKeys.includes(key)) continue;
    const last = ranges.at(-1);
    if (last?.[1] === key - 1) last[1] = key;
    else ranges.push([key, key]);
  }
  return ranges;
}

/** The doubt sets under which a key is stretched from the recording at a sampled key; []: never. */
export function stretched(
  key: number,
  from: number,
  sampled: readonly number[],
  rule: OutlineArticulation['stretch'],
): number[] {
  const below = sampled.filter((one) => one <= key).at(-1);
  const above = sampled.find((one) => one >= key);
  if (rule === 'up') return from === (below ?? above) ? [plain] : [];
  if (rule === 'down') return from === (above ?? below) ? [plain] : [];
  if (below === undefined || above === undefined) return from === (below ?? above) ? [plain] : [];
  // In the middle the lower one is plain; a key that was recorded is both of them.
  const nearest = key - below <= above - key ? below : above;
  if (from === nearest) return [plain];
  const isMiddle = key - below === above - key;
  const isOther = from === below || from === above;
  return isOther && (rule === null || isMiddle) ? [neighbour] : [];
}

/**
 * The same where recordings around are played too: half as many on each side as are borrowed, and
 * one more on both sides if that is no whole number. Where nothing is said of it, the next ones may be.
 */
export function stretchedOrBorrowed(
  key: number,
  from: number,
  sampled: readonly number[],
  rule: OutlineArticulation['stretch'],
  borrow: number | null,
): number[] {
  const place = sampled.indexOf(from);
  const near = (reach: number): number[] =>
    sampled
      .filter((_, other) => Math.abs(other - place) <= reach)
      .flatMap((lender) => stretched(key, lender, sampled, rule));
  if (borrow === null) return minimal([...near(0), ...near(1).map((set) => set | neighbour)]);
  return minimal(near(Math.floor(borrow / 2) + (borrow % 2)));
}
