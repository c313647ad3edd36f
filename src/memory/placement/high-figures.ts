import type { LoadedInstrument } from '../loaded.ts';
import { machineMemory } from '../machine-memory.ts';
import { sharingGroups } from '../sharing-groups.ts';

/** High figures of instruments in company. Sets are of indices, ascending. */
export interface HighFigures {
  /** Of each by itself; 0: nothing of it is loaded. */
  readonly alone: readonly number[];
  /** Instruments that would share samples on one machine: sets of two or more. */
  readonly sharing: readonly (readonly number[])[];
  /** Of a set on one machine, as `machineMemory` has it. */
  readonly together: (set: readonly number[]) => number;
  /**
   * Those whose company may make a set cheaper. Memory else grows with every instrument that comes; but
   * what a player was read to take holds only while the instrument shares with no other.
   */
  readonly relief: (set: readonly number[]) => readonly number[];
}

export const highFigures = (all: readonly LoadedInstrument[]): HighFigures => {
  const alone = all.map((one) => machineMemory([one]).high);
  const sharing = sharingGroups(all).filter((set) => set.length > 1);
  const setOf = new Map(sharing.flatMap((set) => set.map((i) => [i, set] as const)));
  const known = new Map<string, number>();
  const shared = (members: readonly number[]): number => {
    if (members.length === 1) return alone[members[0]!]!;
    const key = members.join(' ');
    let high = known.get(key);
    if (high === undefined) {
      high = machineMemory(members.map((i) => all[i]!)).high;
      known.set(key, high);
    }
    return high;
  };
  /** Members by the set that they share in; those that share in none each by itself. */
  const parts = (set: readonly number[]): readonly (readonly number[])[] => {
    const found = new Map<unknown, number[]>();
    for (const i of set) {
      const key = setOf.get(i) ?? i;
      const part = found.get(key);
      if (part === undefined) found.set(key, [i]);
      else part.push(i);
    }
    return [...found.values()];
  };
  const reliefOf = new Map<number, readonly number[]>();
  const reliefOfOne = (i: number): readonly number[] => {
    let found = reliefOf.get(i);
    if (found === undefined) {
      found = (setOf.get(i) ?? []).filter(
        (j) => j !== i && shared(i < j ? [i, j] : [j, i]) < alone[i]!,
      );
      reliefOf.set(i, found);
    }
    return found;
  };
  return {
    alone,
    sharing,
    together: (set) => parts(set).reduce((sum, part) => sum + shared(part), 0),
    relief: (set) => parts(set).flatMap((part) => (part.length === 1 ? reliefOfOne(part[0]!) : [])),
  };
};
