import type { Subject } from './decision.ts';
import type { PlanInstrument, PlanTotal } from './plan.ts';

type Shared = Pick<Subject, 'instrument' | 'player' | 'machine'>;

type Counts = Pick<PlanTotal, 'zones' | 'zonesKept' | 'samples' | 'samplesKept'>;

/** What instruments count together: those that hold their samples in common count each once. */
export const countShared = (
  instruments: readonly PlanInstrument[],
  subjects: readonly Shared[],
): Counts => {
  const total = { zones: 0, zonesKept: 0, samples: 0, samplesKept: 0 };
  for (const group of sharingGroups(subjects)) {
    const counts =
      group.length === 1 ? instruments[group[0]!]! : countGroup(group, instruments, subjects);
    total.zones += counts.zones;
    total.zonesKept += counts.zonesKept;
    total.samples += counts.samples;
    total.samplesKept += counts.samplesKept;
  }
  return total;
};

/** Zones by their number in the definition, samples by name. */
const countGroup = (
  group: readonly number[],
  instruments: readonly PlanInstrument[],
  subjects: readonly Shared[],
): Counts => {
  const all = group.map((i) => subjects[i]!.instrument);
  const kept = group.flatMap((i) => instruments[i]!.kept);
  const distinct = (list: readonly (string | number)[]): number => new Set(list).size;
  return {
    zones: distinct(all.flatMap(({ zones }) => zones.map(({ id }) => id))),
    zonesKept: distinct(kept.map(({ zone }) => zone)),
    samples: distinct(all.flatMap(({ samples }) => samples.map(({ name }) => name))),
    samplesKept: distinct(kept.flatMap(({ samples }) => samples)),
  };
};

/** Instruments that hold their samples in common, by their places; the others each alone. */
export const sharingGroups = (subjects: readonly Shared[]): readonly (readonly number[])[] => {
  const groups = new Map<string, number[]>();
  subjects.forEach(({ instrument, player, machine }, i) => {
    const shared = ['shared', machine, player.id, instrument.sha256];
    const key = JSON.stringify(player.shares === 'machine' ? shared : ['own', i]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [i]);
    else group.push(i);
  });
  return [...groups.values()];
};
