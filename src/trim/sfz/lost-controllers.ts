import type { Region } from '../../instruments/sfz/structure/regions.ts';
import type { Stub } from './stub.ts';

/** Controllers that players take for volume, pan and expression unless a region uses them. */
const mapped = [
  [7, 'amplitude_oncc7'],
  [10, 'pan_oncc10'],
  [11, 'amplitude_oncc11'],
] as const;

/** One stub for each of them that some lost region uses and no kept one does. */
export const lostControllers = (
  kept: readonly Region[],
  gone: readonly Region[],
): readonly Stub[] => {
  const [stay, lost] = [usedIn(kept), usedIn(gone)];
  return mapped.flatMap(([number, opcode]): readonly Stub[] =>
    lost.has(number) && !stay.has(number) ? [{ opcodes: [[opcode, '100']], offsets: null }] : [],
  );
};

const usedIn = (regions: readonly Region[]): ReadonlySet<number> => {
  const used = new Set<number>();
  const names = new Map<string, number>();
  for (const { opcodes } of regions) {
    for (const { name } of opcodes) {
      let number = names.get(name);
      if (number === undefined) {
        number = Number(/cc(7|10|11)$/u.exec(name)?.[1] ?? -1);
        names.set(name, number);
      }
      used.add(number);
    }
  }
  return used;
};
