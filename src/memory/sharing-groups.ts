import type { LoadedInstrument } from './loaded.ts';

/**
 * What is loaded on one machine, parted by who shares samples: instruments of one definition whose
 * player is the same and shares; the others each by itself. Indices, ascending; what nothing is loaded
 * of is left out.
 */
export const sharingGroups = (all: readonly LoadedInstrument[]): readonly (readonly number[])[] => {
  const groups = new Map<string, number[]>();
  all.forEach(({ instrument, player, copies }, i) => {
    if (!copies.some(({ zones }) => zones.includes(1))) return;
    const key =
      player.shares === 'machine' ? `shared ${instrument.sha256} ${player.id}` : `own ${String(i)}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [i]);
    else group.push(i);
  });
  return [...groups.values()];
};
