import { isOneDefinition } from '../keep-file/one-definition.ts';
import type { PlanInstrument } from '../plan.ts';
import { loadedCopies, type CopyZones } from './loaded-copies.ts';

/** Which of the two files, or what they have in common: what stays loaded from one to the other. */
export type Side = 'from' | 'to' | 'both';

/** A copy, or all copies alike, in both files. */
export interface CopyPair extends Readonly<Record<Side, Pick<CopyZones, 'count' | 'zones'>>> {
  readonly name: string | null;
}

/** An instrument in two keep files. */
export interface InstrumentPair {
  readonly id: string;
  readonly from: PlanInstrument | null;
  readonly to: PlanInstrument | null;
  /** In the order of the second file, then what is only in the first. */
  readonly copies: readonly CopyPair[];
}

const nothing = { count: 0, zones: new Set<number>() } as const;

/** A pair with only what lies on one machine; null when that is nothing. */
export const onMachine = (pair: InstrumentPair, machine: string): InstrumentPair | null => {
  const from = pair.from?.machine === machine ? pair.from : null;
  const to = pair.to?.machine === machine ? pair.to : null;
  if (from === null && to === null) return null;
  const copies = pair.copies.map((copy) => ({
    ...copy,
    ...(from === null ? { from: nothing } : {}),
    ...(to === null ? { to: nothing } : {}),
  }));
  return { id: pair.id, from, to, copies };
};

/** One definition on one machine: only then can anything stay loaded. */
const isSame = (from: PlanInstrument | null, to: PlanInstrument | null): boolean =>
  from !== null && to !== null && isOneDefinition(from, to) && from.machine === to.machine;

/** Sets an instrument of one keep file against that of another. */
export const pairInstruments = (
  id: string,
  from: PlanInstrument | null,
  to: PlanInstrument | null,
): InstrumentPair => {
  const isApart = from?.shares === 'copy' || to?.shares === 'copy';
  const before = from === null ? [] : loadedCopies(from, isApart);
  const after = to === null ? [] : loadedCopies(to, isApart);
  const names = new Set([...after, ...before].map(({ name }) => name));
  const stays = isSame(from, to);
  const copies = [...names].map((name): CopyPair => {
    const one = before.find((copy) => copy.name === name) ?? nothing;
    const two = after.find((copy) => copy.name === name) ?? nothing;
    const both = {
      count: Math.min(one.count, two.count),
      zones: new Set([...two.zones].filter((zone) => one.zones.has(zone))),
    };
    return { name, from: one, to: two, both: stays ? both : nothing };
  });
  return { id, from, to, copies };
};

/** Nothing of it is loaded there. */
export const isEmpty = ({ copies }: InstrumentPair, side: Side): boolean =>
  copies.every((copy) => copy[side].zones.size === 0);

/** All that either file has loaded of it stays as it is. */
export const isUnchanged = (pair: InstrumentPair): boolean =>
  pair.copies.every(({ from, to, both }) =>
    [from, to].every(
      ({ zones, count }) =>
        zones.size === 0 || (zones.size === both.zones.size && count === both.count),
    ),
  );

/** Zones that are loaded, in each copy that has its own. */
export const zoneCount = ({ copies }: InstrumentPair, side: Side): number =>
  copies.reduce((sum, copy) => sum + copy[side].zones.size, 0);
