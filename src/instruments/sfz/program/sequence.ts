import { plain, type DoubtSet } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import type { Turn } from '../../instrument.ts';
import { engine } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/**
 * Whether a region's turn can come at all. Counters outlive a cue and engines advance them by
 * different notes, so every turn there is can come; a turn behind the last never does. What `lorand`
 * and `hirand` leave open can be drawn (the open SFZ documentation, `seq_position`, `lorand`).
 *
 * @returns the doubt under which it can; null when it can't
 */
export const turn = (opcodes: RegionOpcodes): DoubtSet | null => {
  const drawn = draw(opcodes);
  if (drawn === null) return null;
  const length = opcodes.whole('seq_length') ?? 1;
  const position = opcodes.whole('seq_position') ?? 1;
  if (position >= 1 && position <= Math.max(length, 1)) return drawn;
  return position === 0 || length === 0 ? drawn | engine : null;
};

/** Whether some number can be drawn: a limit outside 0 to 1 may count as if it were not written. */
const draw = (opcodes: RegionOpcodes): DoubtSet | null => {
  const limits = [opcodes.number('lorand') ?? 0, opcodes.number('hirand') ?? 1] as const;
  if (isOpen(limits)) return plain;
  const [lo, hi] = limits;
  return isOpen([isDrawn(lo) ? lo : 0, isDrawn(hi) ? hi : 1]) ? engine : null;
};

const isOpen = ([lo, hi]: Range): boolean => lo < hi || (lo === 1 && hi === 1);

const isDrawn = (limit: number): boolean => limit >= 0 && limit <= 1;

/** The longest round that is told. */
const longestRound = 1_000;

/** How often a region's note comes round until it starts; null where it always does. */
export const roundOf = (opcodes: RegionOpcodes): Turn | null => {
  const of = Math.min(longestRound, Math.max(1, opcodes.whole('seq_length') ?? 1));
  const [lo, hi] = [opcodes.number('lorand') ?? 0, opcodes.number('hirand') ?? 1];
  const chance = Math.min(1, hi) - Math.max(0, lo);
  const drawn = chance > 0 && chance < 1 ? chance : 1;
  return of === 1 && drawn === 1 ? null : { of, chance: drawn };
};
