import type { Miss, MissBars, WayOut } from '../keep/check/check.ts';
import { distinctNotes } from '../keep/check/distinct-notes.ts';
import { isPlain } from '../keep/check/is-plain.ts';
import { joinedBars, joinedRanges } from '../keep/check/joined-bars.ts';
import { toRanges } from '../terms/range.ts';

/**
 * Missing zones that are one matter: those that the same notes ask for (microphones, round robins, layers
 * that fade), and those that a player loads together where the same ways help.
 */
export interface MissGroup {
  /** Who asks for any of them, how often and where. */
  readonly shared: Miss;
  /** Some notes may ask for several of them: there are no more notes than `shared` has, or fewer. */
  readonly notesAtMost: boolean;
  readonly misses: readonly [Miss, ...Miss[]];
  /** What helps all of them. */
  readonly ways: readonly WayOut[];
  readonly bars: readonly MissBars[];
}

const whoAsks = (miss: Miss): string => {
  const { instrument, copy, silent, isPreset, doubts, notes, doubtfulNotes, cues } = miss;
  const { keys, velocities, places } = miss;
  return JSON.stringify([
    ...[instrument, copy, silent, isPreset, doubts, notes, doubtfulNotes, Object.entries(cues)],
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

/** What is certain first, then what most notes ask for; else as it was. */
const byWeight = (a: MissGroup, b: MissGroup): number =>
  Number(isPlain(b.shared)) - Number(isPlain(a.shared)) || b.shared.notes - a.shared.notes;

/** Groups of one unit that the same ways help: whoever loads one of them loads all. */
const matterOf = ({ shared, misses, ways }: MissGroup): string => {
  const units = new Set(misses.map(({ unit }) => unit));
  const { copy, silent, isPreset, articulations } = shared;
  return units.size > 1
    ? JSON.stringify(misses.map(({ zone }) => zone))
    : JSON.stringify([copy, silent, isPreset, isPlain(shared), articulations, shared.unit, ways]);
};

const sum = (groups: readonly MissGroup[], of: (miss: Miss) => number): number =>
  groups.reduce((total, { shared }) => total + of(shared), 0);

/** Layers may be asked for by notes that overlap without being the same ones. */
const asOne = (groups: readonly [MissGroup, ...MissGroup[]]): MissGroup => {
  const [{ shared, ways }] = groups;
  const all = groups.map((group) => group.shared);
  const cues = new Map<string, number>();
  for (const [cue, notes] of all.flatMap((miss) => Object.entries(miss.cues))) {
    cues.set(cue, (cues.get(cue) ?? 0) + notes);
  }
  const order = [...cues.keys()];
  const plain = distinctNotes(all, Infinity);
  const velocities = all.flatMap((miss) => miss.velocities ?? []);
  const [first, ...others] = groups.flatMap(({ misses }) => misses);
  return {
    shared: {
      ...shared,
      notes: plain.notes,
      doubtfulNotes: sum(groups, ({ doubtfulNotes }) => doubtfulNotes),
      doubts: distinct(all.flatMap(({ doubts }) => doubts)),
      cues: Object.fromEntries(cues),
      keys: joinedRanges(all.flatMap(({ keys }) => keys)),
      velocities:
        velocities.length === 0 ? null : [Math.min(...velocities), Math.max(...velocities)],
      places: all
        .flatMap(({ places }) => places)
        .sort(
          (a, b) =>
            order.indexOf(a.cue) - order.indexOf(b.cue) || a.tick - b.tick || a.track - b.track,
        )
        .slice(0, mostPlaces),
    },
    notesAtMost: plain.atMost,
    misses: [first!, ...others],
    ways,
    bars: joinedBars(groups.flatMap(({ misses }) => misses)),
  };
};

/** Places that are told of one matter. */
const mostPlaces = 3;

const distinct = (sets: Miss['doubts']): Miss['doubts'] => [
  ...new Map(sets.map((set) => [set.join(), set])).values(),
];

/** The misses of an instrument, what is one matter together, the gravest first. */
export const groupMisses = (misses: readonly Miss[]): readonly MissGroup[] => {
  const groups = new Map<string, [Miss, ...Miss[]]>();
  for (const miss of misses) {
    const who = whoAsks(miss);
    const group = groups.get(who);
    if (group === undefined) groups.set(who, [miss]);
    else group.push(miss);
  }
  const matters = new Map<string, [MissGroup, ...MissGroup[]]>();
  for (const misses of groups.values()) {
    const group = {
      shared: misses[0],
      notesAtMost: false,
      misses,
      ways: inAll(misses),
      bars: joinedBars(misses),
    };
    const matter = matters.get(matterOf(group));
    if (matter === undefined) matters.set(matterOf(group), [group]);
    else matter.push(group);
  }
  return [...matters.values()]
    .map((matter) => (matter.length === 1 ? matter[0] : asOne(matter)))
    .sort(byWeight);
};

/** Numbers of zones, neighbours together. */
export const zoneRanges = (misses: readonly Miss[]): readonly (readonly [number, number])[] =>
  toRanges(misses.map(({ zone }) => zone));
