import { finding, type Finding } from '../../terms/finding.ts';
import { keyName } from '../../terms/key.ts';
import type { Range } from '../../terms/range.ts';
import type { RowDraft } from './row-draft.ts';

/** An octave: samples are seldom stretched over more keys (common practice). */
const mostKeys = 12;

const widthOf = ([lo, hi]: Range): number => hi - lo + 1;

/**
 * Zones over more than an octave, in one warning at the first of them. Manuals print the keys of a
 * whole articulation (`G3-E7`), and such a range in a table is one sample for all of them.
 *
 * @param middleC the octave of key 60 in the table, as what the warning says is to be written there
 */
export const wideZones = (
  path: string,
  rows: readonly RowDraft[],
  middleC: number,
): readonly Finding[] => {
  let zones = 0;
  let widest: Range = [0, 0];
  let first: RowDraft | null = null;
  for (const row of rows) {
    for (const keys of row.keys) {
      if (widthOf(keys) <= mostKeys) continue;
      first ??= row;
      zones += row.zones / row.keys.length;
      if (widthOf(keys) > widthOf(widest)) widest = keys;
    }
  }
  if (first === null) return [];
  const [lo, hi] = widest;
  const args = {
    ...{ zones, limit: mostKeys, lo, hi },
    ...{ from: keyName(lo, middleC), to: keyName(hi, middleC) },
  };
  return [finding('warning', 'table-wide-zones', path, args, first.keysAt)];
};
