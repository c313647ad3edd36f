import type { Plan, PlanInstrument } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';
import { sumAgrees } from './machines.ts';
import { sharingInstruments } from './sharing.ts';

export const totalAgrees = (
  { total, machines, instruments, printed }: Plan,
  found: Disagreements,
): void => {
  const { bytes } = total;
  const sum = (of: (one: Plan['machines'][number]) => number): number =>
    machines.reduce((all, one) => all + of(one), 0);
  found.same(
    'total-full',
    bytes.full,
    sum(({ bytes: own }) => own.full),
  );
  found.same(
    'total-kept',
    bytes.kept,
    sum(({ bytes: own }) => own.kept),
  );
  sumAgrees('total-reached', bytes.reached, instruments, 'reached', null, found);
  found.same('total-saved', bytes.saved, bytes.full - bytes.kept);
  const counts = { zones: 0, zonesKept: 0, leastSamples: 0, mostSamples: 0, samplesKept: 0 };
  for (const group of sharingInstruments(instruments)) {
    const one = countGroup(group);
    counts.zones += one.zones;
    counts.zonesKept += one.zonesKept;
    counts.leastSamples += one.leastSamples;
    counts.mostSamples += one.mostSamples;
    counts.samplesKept += one.samplesKept;
  }
  found.same('total-zones', total.zones, counts.zones);
  found.same('total-zones-kept', total.zonesKept, counts.zonesKept);
  found.atLeast('total-samples', total.samples, counts.leastSamples);
  found.atMost('total-samples', total.samples, counts.mostSamples);
  found.same('total-samples-kept', total.samplesKept, counts.samplesKept);
  if (printed.parts === 0) {
    found.same('printed-zones', printed.zones, 0);
    found.same('printed-bytes', printed.bytes, 0);
  }
};

/** Zones by their number, samples by name; samples that no zone uses are in no list. */
const countGroup = (group: readonly PlanInstrument[]) => {
  const distinct = (list: readonly (string | number)[]): number => new Set(list).size;
  const kept = group.flatMap((one) => one.kept);
  const all = [...kept, ...group.flatMap(({ dropped }) => dropped)];
  const samples = group.map((one) => one.samples);
  return {
    zones: distinct(all.map(({ zone }) => zone)),
    zonesKept: distinct(kept.map(({ zone }) => zone)),
    leastSamples: Math.max(...samples, distinct(all.flatMap((one) => one.samples))),
    mostSamples: samples.reduce((a, b) => a + b, 0),
    samplesKept: distinct(kept.flatMap((one) => one.samples)),
  };
};
