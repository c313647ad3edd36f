import type { OverviewInput } from './overview-input.ts';
import type { OverviewMachine } from './overview.ts';
import { placesOf } from './by-id.ts';

/** Memory of each machine before and after, and the cue that fills it most. */
export const overviewMachines = ({
  plan,
  memory,
  worklist,
}: Pick<OverviewInput, 'plan' | 'memory' | 'worklist'>): readonly OverviewMachine[] => {
  const cueOf = placesOf(plan.cues);
  return plan.machines.map(({ id, budget, bytes, fits }) => {
    const peak = memory.machines.find((machine) => machine.id === id)?.peak ?? null;
    const steps = worklist.machines.find((machine) => machine.id === id)?.actions.length ?? 0;
    return {
      id,
      budget,
      bytes,
      fits,
      peak: peak === null ? null : { cue: cueOf(peak.cue), bytes: peak.bytes },
      steps,
    };
  });
};
