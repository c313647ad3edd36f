import { shortestRuns, type GroupStart } from './shortest-runs.ts';

/** Cues are numbered from 0 in loading order. */
export interface GroupCosts {
  readonly cues: number;
  /** Cues `from` to `to`, both with, may be loaded together. Asked for runs of two or more only. */
  readonly fits: (from: number, to: number) => boolean;
  /** Bytes to load when the run `from`..`to` is there and `to + 1`..`next` comes. */
  readonly change: (from: number, to: number, next: number) => number;
}

/**
 * Borders of the groups in which cues are loaded: the last cue of each (design, section 7). They are
 * the fewest; of those, the ones with the fewest bytes to load at the changes; of those, the ones that
 * end earliest, the first group deciding before the second. Exact; no cues: no groups.
 *
 * Both functions are asked once at most for the same thing, `change` only for neighbours on some way
 * with the fewest groups.
 */
export const loadingGroups = ({ cues, fits, change }: GroupCosts): readonly number[] => {
  if (cues === 0) return [];
  const rows = shortestRuns(cues, fits);
  /** For the runs of the row behind: the cheapest way on from there, by first and last cue. */
  let behind = new Map<number, readonly Way[]>();
  for (const row of [...rows].reverse()) behind = waysOf(row, behind, change);
  const best = cheapest(behind.get(0)!, () => 0);
  const borders: number[] = [];
  for (let way: Way | null = best.way; way !== null; way = way.next) borders.push(way.end);
  return borders;
};

/** A group with the best way to go on behind it. */
interface Way {
  readonly end: number;
  /** Bytes of all changes behind it. */
  readonly bytes: number;
  readonly next: Way | null;
}

const waysOf = (
  row: readonly GroupStart[],
  behind: ReadonlyMap<number, readonly Way[]>,
  change: GroupCosts['change'],
): Map<number, readonly Way[]> =>
  new Map(
    row.map(({ first, ends }) => [
      first,
      ends.map((end): Way => {
        const on = behind.get(end + 1);
        if (on === undefined) return { end, bytes: 0, next: null };
        const { way, bytes } = cheapest(on, (next) => change(first, end, next.end));
        return { end, bytes, next: way };
      }),
    ]),
  );

/** The first of equals: ways stand by their ends, so that is the one that ends earliest. */
const cheapest = (
  ways: readonly Way[],
  change: (way: Way) => number,
): { readonly way: Way; readonly bytes: number } =>
  ways
    .map((way) => ({ way, bytes: change(way) + way.bytes }))
    .reduce((best, each) => (each.bytes < best.bytes ? each : best));
