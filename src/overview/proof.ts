import type { OverviewInput } from './overview-input.ts';
import { overviewMisses } from './misses.ts';
import type { OverviewProof } from './overview-proof.ts';

/** What was checked, and what of it is missing. */
export const overviewProof = ({
  plan,
  check,
  checked,
}: Pick<OverviewInput, 'plan' | 'check' | 'checked'>): OverviewProof => {
  const { verdict, open, total, proof } = check;
  const { cues, absent, leftOut, accepted, notes, settled } = proof;
  return {
    ...{ verdict, of: checked, cues, absent, leftOut, accepted, notes, open, settled, total },
    misses: overviewMisses(check, plan.machines),
    unlisted: 0,
  };
};
