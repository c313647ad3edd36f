import { machineMemory } from '../memory/machine-memory.ts';
import { sharingGroups } from './count-shared.ts';
import { loadedUnder, type Decision, type Subject } from './decision.ts';
import { why } from './keep-set.ts';

/** How much stays of a template. */
export interface KeptAmount {
  /** Zones of instruments that hold their samples in common count once. */
  readonly zones: number;
  /** Of all machines. */
  readonly bytes: number;
}

/** What decisions keep, over all instruments and machines. @param decisions one for each subject */
export const keptAmount = (
  subjects: readonly Subject[],
  decisions: readonly Decision[],
): KeptAmount => {
  const zones = sharingGroups(subjects).reduce((sum, group) => {
    const kept = group.flatMap((i) =>
      subjects[i]!.instrument.zones.flatMap(({ id }, zone) =>
        decisions[i]!.whole.why[zone] === why.dropped ? [] : [id],
      ),
    );
    return sum + (group.length === 1 ? kept.length : new Set(kept).size);
  }, 0);
  const machines = [...new Set(subjects.map(({ machine }) => machine))];
  const bytes = machines.reduce((sum, machine) => {
    const loaded = subjects.flatMap((subject, i) =>
      subject.machine === machine ? [loadedUnder(subject, decisions[i]!)] : [],
    );
    return sum + machineMemory(loaded).bytes;
  }, 0);
  return { zones, bytes };
};
