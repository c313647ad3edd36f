import type { Plan, PlanInstrument } from '../../../src/keep/plan.ts';

/** Zones to take out, by instrument. */
export type Removals = ReadonlyMap<string, ReadonlySet<number>>;

const distinct = (list: readonly (string | number)[]): number => new Set(list).size;

const instrumentWithout = (
  instrument: PlanInstrument,
  removed: ReadonlySet<number>,
): PlanInstrument => {
  const kept = instrument.kept.filter(({ zone }) => !removed.has(zone));
  const gone = instrument.kept.filter(({ zone }) => removed.has(zone));
  const dropped = [
    ...instrument.dropped,
    ...gone.map(({ zone, key, samples, articulations, bytes }) => ({
      ...{ zone, key, samples, articulations, bytes },
    })),
  ].sort((a, b) => a.zone - b.zone);
  const copies = instrument.copies.map((copy) => {
    if (copy.kept === null) {
      return { ...copy, zonesKept: copy.zonesKept === 0 ? 0 : kept.length };
    }
    const own = copy.kept.filter((zone) => !removed.has(zone));
    return {
      ...copy,
      zonesKept: own.length,
      kept: own,
      muted: copy.muted.filter((zone) => !removed.has(zone)),
    };
  });
  return {
    ...instrument,
    zonesKept: kept.length,
    samplesKept: distinct(kept.flatMap(({ samples }) => samples)),
    copies,
    kept,
    dropped,
  };
};

/**
 * A keep file from which zones were taken, with its counts put right: what a person might do by hand.
 * Bytes are left as they were.
 */
export const withoutZones = (plan: Plan, removals: Removals): Plan => ({
  ...plan,
  instruments: plan.instruments.map((instrument) => {
    const removed = removals.get(instrument.id);
    return removed === undefined ? instrument : instrumentWithout(instrument, removed);
  }),
});
