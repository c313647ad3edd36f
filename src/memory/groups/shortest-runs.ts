/** A cue that a group begins with, and where groups that begin there may end. */
export interface GroupStart {
  readonly first: number;
  /** Last cues, ascending. */
  readonly ends: readonly number[];
}

/**
 * All ways to cover the cues by the fewest runs: for each run of a way, in order, where it may begin
 * and end. Every end leads on to a beginning in the next row; the last row ends with the last cue.
 *
 * Each run is asked for once at most. That a run does not fit says nothing of a longer one: what a
 * player was read to take may be less than what is computed for a part of it.
 *
 * @param cues how many there are; at least 1
 * @param fits asked for runs of two or more; a cue alone always may be a run
 */
export const shortestRuns = (
  cues: number,
  fits: (from: number, to: number) => boolean,
): readonly (readonly GroupStart[])[] => {
  const mayRun = (from: number, to: number): boolean => from === to || fits(from, to);
  const last = cues - 1;
  const seen = new Uint8Array(cues);
  const rows: (readonly GroupStart[])[] = [];
  let starts: readonly number[] = [0];
  for (;;) {
    // Once one of them reaches the end, no other way on from here is among the shortest.
    const closing = starts.filter((first) => mayRun(first, last));
    if (closing.length > 0) {
      rows.push(closing.map((first) => ({ first, ends: [last] })));
      return onTheWay(rows);
    }
    for (const first of starts) seen[first] = 1;
    const row = starts.map((first) => ({ first, ends: endsOf(first, last, seen, mayRun) }));
    rows.push(row);
    // Ascending, so that the same cues are asked for in the same order.
    starts = [...new Set(row.flatMap(({ ends }) => ends.map((end) => end + 1)))].sort(
      (a, b) => a - b,
    );
  }
};

/** Ends before the last cue behind which no group has begun yet, in this row or an earlier one. */
const endsOf = (
  first: number,
  last: number,
  seen: Uint8Array,
  mayRun: (from: number, to: number) => boolean,
): readonly number[] => {
  const ends: number[] = [];
  for (let end = first; end < last; end++) {
    if (seen[end + 1] === 0 && mayRun(first, end)) ends.push(end);
  }
  return ends;
};

/** Without the runs that lead nowhere. */
const onTheWay = (rows: readonly (readonly GroupStart[])[]): readonly (readonly GroupStart[])[] =>
  rows
    .reduceRight<readonly (readonly GroupStart[])[]>((kept, row) => {
      const next = kept.at(-1)?.map(({ first }) => first);
      const isUseful = (end: number): boolean => next?.includes(end + 1) ?? true;
      const useful = row
        .map(({ first, ends }) => ({ first, ends: ends.filter(isUseful) }))
        .filter(({ ends }) => ends.length > 0);
      return [...kept, useful];
    }, [])
    .toReversed();
