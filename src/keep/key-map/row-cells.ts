import type { Program } from '../../instruments/program.ts';
import type { KeyMapCell } from './key-map.ts';
import { reasonsIn, stateFor } from './reason-mask.ts';
import type { RowZone } from './row-zones.ts';
import { startKeys } from './start-keys.ts';

/** A zone of a row with what a plan says of it. */
export interface JudgedZone extends RowZone {
  /** Why it stays, as a mask; 0: it does not. */
  readonly reasons: number;
}

const keyCount = 128;

/**
 * The cells of a row: keys beside each other of which the same can be told.
 *
 * @param planned whether there is a plan at all
 */
export const rowCells = (
  program: Program,
  zones: readonly JudgedZone[],
  planned: boolean,
): readonly KeyMapCell[] => {
  const counts = new Uint32Array(keyCount);
  const kept = new Uint32Array(keyCount);
  const reasons = new Uint32Array(keyCount);
  // A zone that several starts lead to counts once at a key: the last that was counted there.
  const last = new Int32Array(keyCount).fill(-1);
  zones.forEach((zone, number) => {
    for (const i of zone.starts) {
      const keys = startKeys(program, program.starts[i]!);
      if (keys === null) continue;
      for (let key = keys[0]; key <= keys[1]; key++) {
        if (last[key] === number) continue;
        last[key] = number;
        counts[key]!++;
        if (zone.reasons === 0) continue;
        kept[key]!++;
        reasons[key]! |= zone.reasons;
      }
    }
  });
  const cells: KeyMapCell[] = [];
  for (let lo = 0; lo < keyCount;) {
    let hi = lo;
    const isSame = (key: number): boolean =>
      counts[key] === counts[lo] && kept[key] === kept[lo] && reasons[key] === reasons[lo];
    while (hi + 1 < keyCount && isSame(hi + 1)) hi++;
    if (counts[lo]! > 0) {
      cells.push({
        keys: [lo, hi],
        zones: counts[lo]!,
        kept: planned ? kept[lo]! : null,
        state: planned ? stateFor(reasons[lo]!) : null,
        reasons: reasonsIn(reasons[lo]!),
      });
    }
    lo = hi + 1;
  }
  return cells;
};
