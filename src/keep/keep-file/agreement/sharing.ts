import type { PlanInstrument } from '../../plan.ts';

/** Instruments that hold their samples in common on their machine; the others each alone. */
export const sharingInstruments = (
  instruments: readonly PlanInstrument[],
): readonly (readonly PlanInstrument[])[] => {
  const groups = new Map<string, PlanInstrument[]>();
  instruments.forEach((instrument, i) => {
    const { shares, machine, player, sha256 } = instrument;
    const key = JSON.stringify(shares === 'machine' ? [machine, player, sha256] : [i]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [instrument]);
    else group.push(instrument);
  });
  return [...groups.values()];
};
