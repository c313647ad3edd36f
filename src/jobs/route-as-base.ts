import type { Part } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import type { Routed } from '../template/routed.ts';

/**
 * Routes a file as if it were an export in the format of another one. In format 0 the channels of the
 * one track are copies (SMF 1.0, "Header Chunks": all tracks are in it); where such an export got
 * further tracks and became format 1, those of its first track keep their names.
 *
 * @param format of the export whose copies are meant
 * @param route by the rules
 */
export const routeAsBase = (
  format: Score['format'],
  score: Score,
  parts: readonly Part[],
  route: (score: Score, parts: readonly Part[]) => Routed,
): Routed => {
  const own = route(score, parts);
  if (format !== 0 || score.format === 0) return own;
  const isFirst = ({ sources }: Routed['copies'][number]): boolean =>
    sources.every(({ track }) => track === 0);
  const asOne = route({ ...score, format: 0 }, parts);
  return {
    ...own,
    copies: [...asOne.copies.filter(isFirst), ...own.copies.filter((one) => !isFirst(one))],
  };
};
