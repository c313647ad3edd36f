import type { WayToFit } from '../keep/reel/reel-memory.ts';
import type { OverviewInput } from './overview-input.ts';
import type { OverviewMachine } from './overview-machines.ts';
import { placesOf } from './by-id.ts';
import type { DoableSteps } from './doable-steps.ts';
import { fitsAfter } from './fits-after.ts';

/** As many as a person weighs. */
const mostLargest = 5;
const mostOfKind = 3;

const bestWays = (ways: readonly WayToFit[]): readonly WayToFit[] =>
  (['settle', 'move', 'unload-by', 'trim'] as const).flatMap((kind) =>
    ways
      .filter((way) => way.kind === kind && way.bytes > 0)
      .toSorted((a, b) => Number(b.fits) - Number(a.fits) || b.bytes - a.bytes)
      .slice(0, mostOfKind),
  );

/** Memory of each machine before and after, and the cue that fills it most. */
export const overviewMachines = (
  { plan, memory, worklist }: Pick<OverviewInput, 'plan' | 'memory' | 'worklist'>,
  doable: DoableSteps,
): readonly OverviewMachine[] => {
  const cueOf = placesOf(plan.cues);
  return plan.machines.map(({ id, budget, bytes, fits }) => {
    const reel = memory.machines.find((machine) => machine.id === id);
    const peak = reel?.peak ?? null;
    const steps = worklist.machines.find((machine) => machine.id === id)?.actions ?? [];
    return {
      id,
      budget,
      bytes,
      fits,
      ...fitsAfter({ budget, bytes }, doable.get(id) ?? []),
      peak: peak === null ? null : { cue: cueOf(peak.cue), bytes: peak.bytes },
      steps: steps.length,
      largest: fits === false ? (reel?.largest ?? []).slice(0, mostLargest) : [],
      ways: fits === false ? bestWays(reel?.ways ?? []) : [],
    };
  });
};
