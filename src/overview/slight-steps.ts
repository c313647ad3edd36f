import type { PlanMachine } from '../keep/plan.ts';
import type { WorklistAction } from '../trim/worklist/worklist.ts';
import type { OverviewList } from './overview-steps.ts';

/** Steps are slight that free less than this part of all together. */
const slightPart = 100;

type SeenStep = Pick<WorklistAction, 'number' | 'does' | 'frees' | 'unknownSamples'>;

/**
 * The smallest steps of a machine that free so little together that they are not worth a person's time:
 * less than a hundredth of what all steps free. None where the machine fits only with them.
 *
 * @param actions those that may be done: what must not be done is no matter of time
 */
export const slightSteps = (
  { budget, bytes: { full, kept, high } }: Pick<PlanMachine, 'budget' | 'bytes'>,
  actions: readonly SeenStep[],
): OverviewList['slight'] => {
  const all = actions.reduce((sum, step) => sum + step.frees, 0);
  const numbers: number[] = [];
  let frees = 0;
  // What nobody knows the size of may be large; what takes more when it is done is another matter.
  const known = actions.filter(
    (step) => step.does === 'unload' && step.unknownSamples === 0 && step.frees >= 0,
  );
  for (const step of known.toSorted((a, b) => a.frees - b.frees || a.number - b.number)) {
    if ((frees + step.frees) * slightPart >= all) break;
    numbers.push(step.number);
    frees += step.frees;
  }
  const held = full - all + (high - kept);
  if (budget !== null && held <= budget && held + frees > budget) return { numbers: [], frees: 0 };
  return { numbers: numbers.sort((a, b) => a - b), frees };
};
