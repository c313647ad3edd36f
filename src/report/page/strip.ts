import { cellStates, type OverviewCell } from '../../overview/overview-map.ts';
import { markup, joined, type Html } from './html.ts';

/** Class of the path of a state, by its number in {@link cellStates}. */
export const stateClasses = ['k', 'd', 'p', 'x'] as const;

/** Pixels that a key takes from left to right. */
export const keyWidth = 7;

/**
 * Where the cells of one state lie: a line for each run of keys, `M` from its first key with the height
 * 0, `h` for as many as there are. Keys count from `lo`. The style sheet makes lines as high as the
 * strip, so that a page of many thousand cells stays small.
 *
 * @example stripPath([[60, 62, 0, 3, 3, 0, 0, 0]], 0, 48) // 'M12 0h3'
 */
export const stripPath = (cells: readonly OverviewCell[], state: number, lo: number): string => {
  const runs: [from: number, to: number][] = [];
  for (const [from, to, own] of cells) {
    if (own !== state) continue;
    const last = runs.at(-1);
    if (last?.[1] === from - 1) last[1] = to;
    else runs.push([from, to]);
  }
  return runs.map(([from, to]) => `M${String(from - lo)} 0h${String(to - from + 1)}`).join('');
};

/**
 * The keys of a layer from left to right, with the state of each: one path for a state. What it
 * shows stands as text beside it. It is as wide as the ruler above it.
 *
 * @param lo the key at its left end
 */
export const strip = (cells: readonly OverviewCell[], lo: number): Html =>
  markup`<svg class=s>${joined(
    cellStates.map((_, state) => {
      const path = stripPath(cells, state, lo);
      return path === '' ? null : markup`<path class=${stateClasses[state] ?? ''} d="${path}"/>`;
    }),
    '',
  )}</svg>`;
