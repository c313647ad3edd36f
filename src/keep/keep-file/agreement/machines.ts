import type { InstrumentBytes, Plan, PlanInstrument } from '../../plan.ts';
import type { Stated } from '../../../terms/findings/keep-files.ts';
import type { Disagreements } from './disagreements.ts';
import { isComputed } from './instruments.ts';
import { sharingInstruments } from './sharing.ts';

export const machinesAgree = ({ machines, instruments }: Plan, found: Disagreements): void => {
  const ids = found.once(
    'machine',
    machines.map(({ id }) => id),
  );
  for (const { id, machine } of instruments) {
    found.about(id);
    found.known('instrument-machine', machine, ids);
  }
  found.about(null);
  for (const { id, budget, bytes, fits } of machines) {
    const own = instruments.filter(({ machine }) => machine === id);
    sumAgrees('machine-full', bytes.full, own, 'full', id, found);
    sumAgrees('machine-kept', bytes.kept, own, 'kept', id, found);
    sumAgrees('machine-low', bytes.low, own, 'low', id, found);
    sumAgrees('machine-high', bytes.high, own, 'high', id, found);
    found.atMost('machine-low', bytes.low, bytes.kept, id);
    found.atLeast('machine-high', bytes.high, bytes.kept, id);
    const doesFit = budget === null ? null : bytes.high <= budget;
    found.same('machine-fits', String(fits), String(doesFit), id);
  }
};

/**
 * What instruments take together. Those that share samples take less than their sum; by how much the
 * file does not tell, and by what lines they were fitted neither.
 */
export const sumAgrees = (
  what: Stated,
  says: number,
  instruments: readonly PlanInstrument[],
  part: keyof Pick<InstrumentBytes, 'full' | 'reached' | 'kept' | 'low' | 'high'>,
  of: string | null,
  found: Disagreements,
): void => {
  const limits = { least: 0, most: 0 };
  for (const group of sharingInstruments(instruments)) {
    const figures = group.map(({ bytes }) => bytes[part]);
    const sum = figures.reduce((a, b) => a + b, 0);
    const isLoaded = (one: PlanInstrument): boolean =>
      (part === 'full' ? one.zones : one.zonesKept) > 0;
    if (group.filter(isLoaded).length < 2) {
      limits.least += sum;
      limits.most += sum;
    } else if (group.every(isComputed)) {
      limits.least += Math.max(...figures);
      // Each was rounded for itself.
      limits.most += sum + figures.length;
    } else limits.most = Infinity;
  }
  if (limits.least === limits.most) {
    found.same(what, says, limits.most, of);
    return;
  }
  found.atLeast(what, says, limits.least, of);
  found.atMost(what, says, limits.most, of);
};
