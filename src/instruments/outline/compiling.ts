import type { DoubtSet } from '../../terms/doubt.ts';
import type { OutlineArticulation } from './outline.ts';
import type { OutlineGates } from './outline-gates.ts';
import type { StartList } from './start-list.ts';

/** An articulation being compiled. */
export interface Compiling {
  readonly own: OutlineArticulation;
  readonly gates: OutlineGates;
  readonly starts: StartList;
  /** Doubts of all its starts: what selects it is not known. */
  readonly doubt: DoubtSet;
}
