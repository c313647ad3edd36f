import type { Timeline } from '../../midi/score.ts';
import { clock } from '../../midi/timeline.ts';

/**
 * The first tick of a bar, counted from 1 as {@link clock} counts them; `end` where the bar begins
 * behind it.
 *
 * @param end a tick behind which nothing is looked for
 */
export const barStart = (timeline: Timeline, bar: number, end: number): number => {
  const time = clock(timeline);
  let low = 0;
  let high = Math.ceil(end);
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (time.placeAt(middle).bar >= bar) high = middle;
    else low = middle + 1;
  }
  return low;
};
