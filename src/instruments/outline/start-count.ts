import type { Range } from '../../terms/range.ts';
import { keyReaches } from './key-reach.ts';
import { layerCount } from './layer-reach.ts';
import { partsOf, takesOf, type Part, type PlacedArticulation } from './outline-zone.ts';

/**
 * About how many starts an articulation comes to by its legato, which has one for each key: never too
 * few. What is counted is not made.
 */
export const startCount = ({ own, keys }: PlacedArticulation): number => {
  const { legato } = own;
  if (legato === null) return 0;
  const back = legato.returns === false ? 0 : legato.intervals === null ? 2 : 1;
  return partsOf(own).reduce((sum, part) => {
    const { role, layers, roundRobins, intervals } = part;
    if (role === 'release') return sum;
    const ways = role === 'note' ? 2 * Math.min(1, back) : (legato.overlap === null ? 2 : 1) + back;
    const zones = intervals.length * layerCount(layers) * takesOf(roundRobins);
    // Borders that are not printed, and another note's velocity, make two of one.
    return sum + 2 * ways * zones * own.microphones.length * targets(own, keys, part);
  }, 0);
};

/** Keys of all places, each counted as often as it plays one. */
const targets = (
  own: PlacedArticulation['own'],
  keys: readonly Range[],
  { roundRobins }: Part,
): number =>
  keyReaches(own, keys, roundRobins.borrow)
    .flatMap(({ plain, doubtful }) => [...plain, ...doubtful])
    .reduce((sum, [lo, hi]) => sum + hi - lo + 1, 0);
