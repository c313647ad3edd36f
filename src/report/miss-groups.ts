import type { Miss, MissBars, WayOut } from '../keep/check/check.ts';
import { toRanges } from '../terms/range.ts';

/** Missing zones that the same notes ask for: microphones, round robins, layers that fade. */
export interface MissGroup {
  /** What they share: who asks, how often and where. */
  readonly shared: Miss;
  readonly misses: readonly [Miss, ...Miss[]];
  /** What helps all of them. */
  readonly ways: readonly WayOut[];
  readonly bars: readonly MissBars[];
}

/** True when the notes as they stand ask for it, whatever the files do not tell. */
export const isPlain = ({ doubts }: Pick<Miss, 'doubts'>): boolean =>
  doubts.some(({ length }) => length === 0);

const whoAsks = (miss: Miss): string => {
  const { instrument, copy, silent, doubts, notes, doubtfulNotes, cues } = miss;
  const { keys, velocities, places } = miss;
  return JSON.stringify([
    ...[instrument, copy, silent, doubts, notes, doubtfulNotes, Object.entries(cues)],
    ...[keys, velocities],
    places.map(({ cue, track, tick, key, velocity }) => [cue, track, tick, key, velocity]),
  ]);
};

const inAll = (misses: readonly Miss[]): readonly WayOut[] => {
  const others = misses.slice(1).map(({ ways }) => new Set(ways.map((way) => JSON.stringify(way))));
  return (misses[0]?.ways ?? []).filter((way) => {
    const text = JSON.stringify(way);
    return others.every((ways) => ways.has(text));
  });
};

/** Bars of several misses; those of one track are one entry. */
const joined = (misses: readonly Miss[]): readonly MissBars[] => {
  const tracks = new Map<string, MissBars>();
  for (const each of misses.flatMap(({ bars }) => bars)) {
    const key = JSON.stringify([each.cue, each.track]);
    const before = tracks.get(key)?.bars ?? [];
    tracks.set(key, { ...each, bars: union([...before, ...each.bars]) });
  }
  return [...tracks.values()];
};

/** Ranges of bars joined without counting every bar: a pedal may hold for thousands. */
const union = (ranges: MissBars['bars']): MissBars['bars'] => {
  const joint: [number, number][] = [];
  for (const [lo, hi] of ranges.toSorted((a, b) => a[0] - b[0])) {
    const last = joint.at(-1);
    if (last !== undefined && lo <= last[1] + 1) last[1] = Math.max(last[1], hi);
    else joint.push([lo, hi]);
  }
  return joint;
};

/** What is certain first, then what most notes ask for; else as it was. */
const byWeight = (a: MissGroup, b: MissGroup): number =>
  Number(isPlain(b.shared)) - Number(isPlain(a.shared)) || b.shared.notes - a.shared.notes;

/** The misses of an instrument, those that the same notes ask for together, the gravest first. */
export const groupMisses = (misses: readonly Miss[]): readonly MissGroup[] => {
  const groups = new Map<string, [Miss, ...Miss[]]>();
  for (const miss of misses) {
    const who = whoAsks(miss);
    const group = groups.get(who);
    if (group === undefined) groups.set(who, [miss]);
    else group.push(miss);
  }
  return [...groups.values()]
    .map((group): MissGroup => ({
      shared: group[0],
      misses: group,
      ways: inAll(group),
      bars: joined(group),
    }))
    .sort(byWeight);
};

/** Numbers of zones, neighbours together. */
export const zoneRanges = (misses: readonly Miss[]): readonly (readonly [number, number])[] =>
  toRanges(misses.map(({ zone }) => zone));
