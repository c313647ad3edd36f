import type { PlanMachine } from '../keep/plan.ts';
import type { WorklistMachine } from '../trim/worklist/worklist.ts';
import type { OverviewMachine } from './overview-machines.ts';

type Fits = Pick<OverviewMachine, 'fitsNow' | 'fitsAfter'>;

/**
 * Whether a machine fits with everything loaded, and else the step after which it does, when they are
 * done in their order. In between it is judged as in the end: by how much the highest figure may be above
 * the likely one.
 *
 * @param actions those that may be done: what must not be done frees nothing
 */
export const fitsAfter = (
  { budget, bytes: { full, kept, high } }: Pick<PlanMachine, 'budget' | 'bytes'>,
  actions: readonly Pick<WorklistMachine['actions'][number], 'number' | 'frees'>[],
): Fits => {
  if (budget === null) return { fitsNow: null, fitsAfter: null };
  if (full <= budget) return { fitsNow: true, fitsAfter: null };
  let held = full + high - kept;
  for (const { number, frees } of actions) {
    held -= frees;
    if (held <= budget) return { fitsNow: false, fitsAfter: number };
  }
  return { fitsNow: false, fitsAfter: null };
};
