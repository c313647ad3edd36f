/**
 * What routing one cue file shows about the rules, as plain data: what is told of a whole reel is made
 * from the routing of all its files. Rules are indices into the template's routes.
 */
export interface Routing {
  /** Names of the tracks with parts; empty for a track without one. */
  readonly names: readonly string[];
  /** Rules that decided about a part. */
  readonly deciding: readonly number[];
  /** Rules that match a part which an earlier one, `by`, had decided about. */
  readonly beaten: readonly Beaten[];
  /** Rules that may have decided about what could not be read. */
  readonly possible: readonly number[];
  /** By cue, what no rule takes; `null` is a track without a name. */
  readonly unmapped: readonly UnmappedParts[];
  /** Articulations that a rule names and its instrument does not have, or has in several `matches`. */
  readonly unresolved: readonly UnresolvedArticulation[];
}

export interface Beaten {
  readonly rule: number;
  readonly by: number;
}

export interface UnmappedParts {
  readonly cue: string;
  readonly tracks: readonly (string | null)[];
  readonly notes: number;
}

export interface UnresolvedArticulation {
  readonly rule: number;
  readonly instrument: string;
  readonly articulation: string;
  readonly tracks: readonly string[];
  readonly matches: number;
  /** When none has the name: what may have been meant. */
  readonly near: string | null;
}

const distinct = <T>(values: readonly T[]): readonly T[] => [...new Set(values)];

/** The routing of several files as that of one. What comes first in `all` comes first in it. */
export const joinRouting = (all: readonly Routing[]): Routing => {
  const beaten = new Map<number, Beaten>();
  for (const one of all.flatMap((routing) => routing.beaten)) {
    if (!beaten.has(one.rule)) beaten.set(one.rule, one);
  }
  return {
    names: distinct(all.flatMap(({ names }) => names)),
    deciding: distinct(all.flatMap(({ deciding }) => deciding)),
    beaten: [...beaten.values()],
    possible: distinct(all.flatMap(({ possible }) => possible)),
    unmapped: joinUnmapped(all.flatMap(({ unmapped }) => unmapped)),
    unresolved: joinUnresolved(all.flatMap(({ unresolved }) => unresolved)),
  };
};

const joinUnmapped = (all: readonly UnmappedParts[]): readonly UnmappedParts[] => {
  const byCue = new Map<string, UnmappedParts>();
  for (const one of all) {
    const { tracks, notes } = byCue.get(one.cue) ?? { tracks: [], notes: 0 };
    byCue.set(one.cue, {
      cue: one.cue,
      tracks: distinct([...tracks, ...one.tracks]),
      notes: notes + one.notes,
    });
  }
  return [...byCue.values()];
};

const joinUnresolved = (
  all: readonly UnresolvedArticulation[],
): readonly UnresolvedArticulation[] => {
  const byName = new Map<string, UnresolvedArticulation>();
  for (const one of all) {
    const key = JSON.stringify([one.rule, one.instrument, one.articulation]);
    const tracks = byName.get(key)?.tracks ?? [];
    byName.set(key, { ...one, tracks: distinct([...tracks, ...one.tracks]) });
  }
  return [...byName.values()];
};
