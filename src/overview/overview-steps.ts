import type { WorklistAction, WorklistMachine } from '../trim/worklist/worklist.ts';

/** The steps of one machine. */
export interface OverviewList extends Omit<WorklistMachine, 'actions'> {
  readonly actions: readonly OverviewStep[];
  /** Steps that a large overview leaves out: those that free least. */
  readonly unlisted: { readonly steps: number; readonly frees: number };
}

/**
 * A step without the list of its zones, which for a large template is longer than all the rest of the
 * page: `keepset worklist --format json` has it.
 */
export interface OverviewStep extends Omit<WorklistAction, 'key' | 'zones'> {
  /** How many zones it loads or unloads. */
  readonly zones: number;
}

/** As many steps as a technician does before lunch. */
export const mostActions = 12;

export interface OverviewAction {
  /** Its number in the worklist. */
  readonly number: number;
  readonly machine: number;
  readonly instrument: number;
  readonly frees: number;
}
