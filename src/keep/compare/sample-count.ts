import type { PlanInstrument } from '../plan.ts';
import type { InstrumentPair, Side } from './copy-pairs.ts';

/** The instrument as the file has it whose zones are asked for. */
export const planOf = ({ from, to }: InstrumentPair, side: Side): PlanInstrument | null =>
  side === 'from' ? from : to;

/** Instruments that hold their samples in common on one machine have the same text. */
export const sharingKey = ({ id, shares, player, sha256 }: PlanInstrument): string =>
  JSON.stringify(shares === 'machine' ? ['shared', player, sha256] : ['own', id]);

/**
 * Samples that are loaded on one machine: in each copy that holds its own, and once where players
 * share them.
 */
export const sampleCount = (pairs: readonly InstrumentPair[], side: Side): number => {
  const held = new Map<string, Set<string>>();
  for (const pair of pairs) {
    const plan = planOf(pair, side);
    if (plan === null) continue;
    const samples = new Map(plan.kept.map((one) => [one.zone, one.samples]));
    for (const copy of pair.copies) {
      const key = sharingKey(plan) + (plan.shares === 'machine' ? '' : JSON.stringify(copy.name));
      const names = held.get(key) ?? new Set();
      held.set(key, names);
      for (const zone of copy[side].zones) {
        for (const name of samples.get(zone) ?? []) names.add(name);
      }
    }
  }
  return [...held.values()].reduce((sum, names) => sum + names.size, 0);
};
