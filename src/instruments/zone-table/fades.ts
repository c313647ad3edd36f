import type { ControllerRange } from '../../notation/controllers.ts';
import { intersect } from '../../terms/range.ts';

/**
 * Controllers that must be in their ranges together, each named once, in ascending order. Null when a
 * controller would have to be in two places at once.
 */
export const together = (all: readonly ControllerRange[]): readonly ControllerRange[] | null => {
  const byNumber = new Map<number, ControllerRange>();
  for (const one of all) {
    const before = byNumber.get(one.number);
    const range = before === undefined ? one.range : intersect(before.range, one.range);
    if (range === null) return null;
    byNumber.set(one.number, { number: one.number, range });
  }
  return [...byNumber.values()].sort((a, b) => a.number - b.number);
};
