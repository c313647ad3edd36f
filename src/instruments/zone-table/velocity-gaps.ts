import { fold } from '../../notation/fold.ts';
import { finding, type Finding, type Place } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';
import type { RowDraft } from './row-draft.ts';

interface Gap {
  readonly range: Range;
  readonly at: Place;
}

/**
 * Velocities between two layers that no layer answers, mostly a slip (`1-40|50-127`): a warning about
 * those within the list of one row and a note about those between rows, each at the first gap. Rows
 * belong together when articulation, release and keys are the same; what one leaves out another may
 * fill. Velocities below the lowest or above the highest layer are no gap.
 */
export const velocityGaps = (path: string, rows: readonly RowDraft[]): readonly Finding[] => {
  const within: Gap[] = [];
  const between: Gap[] = [];
  for (const together of groupsOf(rows)) {
    for (const range of gapsIn(together.flatMap(({ velocities }) => velocities))) {
      const row = together.find((one) => surrounds(one, range));
      if (row !== undefined) within.push({ range, at: row.velocitiesAt });
      else between.push({ range, at: rowAbove(together, range).velocitiesAt });
    }
  }
  return [...gapFinding(path, within, true), ...gapFinding(path, between, false)];
};

const groupsOf = (rows: readonly RowDraft[]): Iterable<readonly RowDraft[]> => {
  const groups = new Map<string, RowDraft[]>();
  for (const row of rows) {
    const { articulation, event } = row;
    const name = articulation === null ? null : fold(articulation);
    const id = JSON.stringify([name, event, joined(row.keys)]);
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [row]);
    else group.push(row);
  }
  return groups.values();
};

/** Ranges in ascending order, those that overlap or touch as one. */
const joined = (ranges: readonly Range[]): readonly Range[] => {
  const all: [number, number][] = [];
  for (const [lo, hi] of [...ranges].sort((a, b) => a[0] - b[0])) {
    const last = all.at(-1);
    if (last !== undefined && lo <= last[1] + 1) last[1] = Math.max(last[1], hi);
    else all.push([lo, hi]);
  }
  return all;
};

const gapsIn = (ranges: readonly Range[]): readonly Range[] => {
  const all = joined(ranges);
  return all.slice(1).map(([lo], i): Range => [all[i]![1] + 1, lo - 1]);
};

/** Whether a row has layers on both sides of a gap. */
const surrounds = ({ velocities }: RowDraft, [lo, hi]: Range): boolean =>
  velocities.some((one) => one[1] < lo) && velocities.some((one) => one[0] > hi);

const rowAbove = (rows: readonly RowDraft[], [, hi]: Range): RowDraft =>
  rows.find(({ velocities }) => velocities.some((one) => one[0] === hi + 1))!;

const gapFinding = (path: string, gaps: readonly Gap[], isInRow: boolean): readonly Finding[] => {
  const [first] = [...gaps].sort((a, b) => (a.at.line ?? 0) - (b.at.line ?? 0));
  if (first === undefined) return [];
  const [lo, hi] = first.range;
  const within = isInRow ? 'row' : 'articulation';
  const args = { lo, hi, within, more: gaps.length - 1 } as const;
  return [finding(isInRow ? 'warning' : 'note', 'table-velocity-gap', path, args, first.at)];
};
