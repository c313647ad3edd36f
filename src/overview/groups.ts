import type { OverviewInput } from './overview-input.ts';
import type { OverviewGroups } from './overview-machines.ts';
import { placesOf } from './by-id.ts';

/** Runs of cues that are loaded together, where the reel does not fit at once. */
export const overviewGroups = ({
  plan,
  memory: { groups },
}: Pick<OverviewInput, 'plan' | 'memory'>): OverviewGroups | null => {
  if (groups === null) return null;
  const cueOf = placesOf(plan.cues);
  const machineOf = placesOf(plan.machines);
  return {
    groups: groups.groups.map(({ cues, bytes, low, high, load, mayGo, seconds }) => ({
      cues: cues.map(cueOf),
      ...{ bytes, low, high, load, mayGo, seconds },
    })),
    load: groups.load,
    seconds: groups.seconds,
    alone: groups.alone.map(({ cue, machine, missing }) => ({
      cue: cueOf(cue),
      machine: machineOf(machine),
      missing,
    })),
  };
};
