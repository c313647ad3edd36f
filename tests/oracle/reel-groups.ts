/** Loading groups by trying every way to cut the order. Up to 9 cues: 256 ways. */
import {
  allCues,
  machineFigure,
  machineIds,
  reelChange,
  type Cues,
  type Reel,
} from './reel-memory.ts';

export interface Grouping {
  readonly groups: readonly (readonly number[])[];
  /** Bytes loaded at the changes from group to group; the first group's own load is not in it. */
  readonly loaded: number;
}

/** Bytes above the budget on the high figure, by machine; machines that hold the cues are left out. */
export function missing(reel: Reel, cues: Cues): Record<string, number> {
  const over = machineIds(reel).map((id) => {
    const budget = reel.machines[id] ?? null;
    return [id, budget === null ? 0 : machineFigure(reel, id, cues).high - budget] as const;
  });
  return Object.fromEntries(over.filter(([, bytes]) => bytes > 0));
}

/** Every allowed way to cut the order into groups, the best first. */
export function groupings(reel: Reel): Grouping[] {
  const cues = allCues(reel);
  const loads = remembered((from: Cues, to: Cues) => reelChange(reel, from, to).load);
  const fits = remembered((group: Cues) => Object.keys(missing(reel, group)).length === 0);
  return cuts(cues)
    .filter((groups) => groups.every((group) => group.length === 1 || fits(group)))
    .map((groups) => {
      const changes = groups.slice(1).map((group, before) => loads(groups[before]!, group));
      return { groups, loaded: changes.reduce((total, load) => total + load, 0) };
    })
    .sort(
      (one, other) =>
        one.groups.length - other.groups.length ||
        one.loaded - other.loaded ||
        firstDifference(ends(one), ends(other)),
    );
}

/** Single cues are always allowed, so there is always a best way. */
export function bestGrouping(reel: Reel): Grouping {
  return groupings(reel)[0]!;
}

/** All 2^(n-1) ways: between two neighbours there is a cut or there is none. */
function cuts(cues: Cues): number[][][] {
  if (cues.length === 0) return [[]];
  return cues.slice(1).reduce<number[][][]>(
    (ways, cue) =>
      ways.flatMap((groups) => [
        [...groups, [cue]],
        [...groups.slice(0, -1), [...groups.at(-1)!, cue]],
      ]),
    [[[cues[0]!]]],
  );
}

function ends({ groups }: Grouping): number[] {
  return groups.map((group) => group.at(-1)!);
}

function firstDifference(one: readonly number[], other: readonly number[]): number {
  const at = one.findIndex((end, index) => end !== other[index]);
  return at < 0 ? 0 : one[at]! - other[at]!;
}

/** The same runs of cues come up in many ways to cut. */
function remembered<Arguments extends readonly Cues[], Result>(
  work: (...cues: Arguments) => Result,
): (...cues: Arguments) => Result {
  const results = new Map<string, Result>();
  return (...cues) => {
    const name = cues.join(' ');
    if (!results.has(name)) results.set(name, work(...cues));
    return results.get(name)!;
  };
}
