import type { Miss, MissBars } from './check.ts';

/** Bars of several misses; those of one track are one entry. */
export const joinedBars = (misses: readonly Pick<Miss, 'bars'>[]): readonly MissBars[] => {
  const tracks = new Map<string, MissBars>();
  for (const each of misses.flatMap(({ bars }) => bars)) {
    const key = JSON.stringify([each.cue, each.track]);
    const before = tracks.get(key)?.bars ?? [];
    tracks.set(key, { ...each, bars: joinedRanges([...before, ...each.bars]) });
  }
  return [...tracks.values()];
};

/** Ranges joined without counting every bar: a pedal may hold for thousands. */
export const joinedRanges = (ranges: MissBars['bars']): MissBars['bars'] => {
  const joint: [number, number][] = [];
  for (const [lo, hi] of ranges.toSorted((a, b) => a[0] - b[0])) {
    const last = joint.at(-1);
    if (last !== undefined && lo <= last[1] + 1) last[1] = Math.max(last[1], hi);
    else joint.push([lo, hi]);
  }
  return joint;
};
