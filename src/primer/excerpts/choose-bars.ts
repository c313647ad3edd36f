import { coverAll, type Cover } from './cover.ts';
import type { Bar } from './find-bars.ts';

/** Bars of a cue that follow one another, and the copies that they are played for. */
export interface BarRun {
  /** The file of the cue: its place in the usage. */
  readonly file: number;
  /** From 1; `to` is the last bar. */
  readonly from: number;
  readonly to: number;
  /** By {@link copyKey}. */
  readonly copies: ReadonlySet<string>;
  /** What they are there for, by {@link wantedKey}. */
  readonly zones: ReadonlySet<string>;
}

/**
 * The fewest bars, as far as a simple search finds them, that start all that any bar starts. Bars that
 * touch become one run.
 *
 * @param lead bars that are played before each of them: what they need has begun there
 */
export const chooseBars = (bars: readonly Cover<Bar>[], lead = 0): readonly BarRun[] => {
  const runs: BarRun[] = [];
  for (const { taken, adds } of coverAll(bars)) {
    const from = Math.max(1, taken.bar - lead);
    const last = runs.at(-1);
    if (last?.file === taken.file && from <= last.to + 1) {
      runs[runs.length - 1] = {
        ...last,
        to: taken.bar,
        copies: new Set([...last.copies, ...taken.copies]),
        zones: new Set([...last.zones, ...adds]),
      };
    } else {
      runs.push({ file: taken.file, from, to: taken.bar, copies: taken.copies, zones: adds });
    }
  }
  return runs;
};
