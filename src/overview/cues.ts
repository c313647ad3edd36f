import type { OverviewInput } from './overview-input.ts';
import type { OverviewCue } from './overview-machines.ts';
import { placesOf } from './by-id.ts';

/** The cues of the plan, and what each needs in memory. */
export const overviewCues = ({
  plan,
  memory,
}: Pick<OverviewInput, 'plan' | 'memory'>): readonly OverviewCue[] => {
  const needOf = placesOf(memory.cues);
  const instrumentOf = placesOf(plan.instruments);
  const machineOf = placesOf(plan.machines);
  return plan.cues.map(({ id, version, files, state, notes, seconds }) => {
    const need = memory.cues[needOf(id)]!;
    const { bytes, low, high, load, mayGo } = need;
    const machines = [...need.machines].sort((a, b) => machineOf(a.id) - machineOf(b.id));
    return {
      ...{ id, version, files, state, notes, seconds, bytes, low, high, load, mayGo },
      machines: machines.map((one) => ({ bytes: one.bytes, low: one.low, high: one.high })),
      needs: need.instruments
        // What only the cue before needed is listed there too.
        .filter(({ zones }) => zones > 0)
        .map((one) => [instrumentOf(one.id), one.bytes] as const)
        .sort(([a], [b]) => a - b),
    };
  });
};
