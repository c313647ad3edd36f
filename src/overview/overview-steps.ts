import type { WorklistAction, WorklistMachine } from '../trim/worklist/worklist.ts';

/** The steps of one machine. */
export interface OverviewList extends Omit<WorklistMachine, 'actions'> {
  readonly actions: readonly OverviewStep[];
  /** Steps that a large overview leaves out: those that free least. */
  readonly unlisted: { readonly steps: number; readonly frees: number };
  /**
   * The smallest of the steps that may be done, which together free less than a hundredth of what all of
   * those do: their numbers, ascending. Empty where the machine fits only with them.
   */
  readonly slight: { readonly numbers: readonly number[]; readonly frees: number };
}

/**
 * A step without the list of its zones, which for a large template is longer than all the rest of the
 * page: `keepset worklist --format json` has it.
 */
export interface OverviewStep extends Omit<WorklistAction, 'key' | 'zones'> {
  /** How many zones it loads or unloads. */
  readonly zones: number;
  /** What was checked needs what it unloads: by notes as they stand, or in doubt only; null: it does not. */
  readonly missed: 'plain' | 'doubt' | null;
}

/** As many steps as a technician does before lunch. */
export const mostActions = 12;

/** Steps of one articulation of one instrument on one machine; of all its copies together. */
export interface OverviewAction {
  /** Numbers in the worklist, ascending. */
  readonly numbers: readonly number[];
  readonly machine: number;
  readonly instrument: number;
  /** As the steps name it, or several that go together; empty: all of the instrument, or no articulation. */
  readonly articulations: readonly string[];
  /** Of all of them together. */
  readonly frees: number;
}
