import { isPlain } from '../keep/check/is-plain.ts';
import type { OverviewInput } from './overview-input.ts';
import { stepsAgainst } from './missed-steps.ts';
import { overviewMisses } from './misses.ts';
import type { OverviewProof } from './overview-proof.ts';

/** What was checked, and what of it is missing. */
export const overviewProof = ({
  plan,
  check,
  checked,
  worklist,
}: Pick<OverviewInput, 'plan' | 'check' | 'checked' | 'worklist'>): OverviewProof => {
  const { verdict, open, total, proof } = check;
  const { cues, absent, leftOut, accepted, notes, settled } = proof;
  return {
    ...{ verdict, of: checked, cues, absent, leftOut, accepted, notes, open, settled, total },
    doubtfulMisses: check.misses.filter((miss) => !isPlain(miss)).length,
    misses: overviewMisses(check, plan.machines, stepsAgainst(worklist, plan.instruments)),
    unlisted: 0,
  };
};
