import { plain, type DoubtSet } from '../../../terms/doubt.ts';
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
  const lo = opcodes.number('lorand') ?? 0;
  const hi = opcodes.number('hirand') ?? 1;
  if (lo >= hi && !(lo === 1 && hi === 1)) return null;
  const length = opcodes.whole('seq_length') ?? 1;
  const position = opcodes.whole('seq_position') ?? 1;
  if (position >= 1 && position <= Math.max(length, 1)) return plain;
  return position === 0 || length === 0 ? engine : null;
};
