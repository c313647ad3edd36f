import type { FileUsage } from '../playback/zone-usage.ts';
import { decide, settledAsPlain, type Subject } from './decision.ts';
import { why } from './keep-set.ts';
import { instrumentMemory } from './plan-instrument.ts';
import { machineFigures, type MachineMemory } from './plan-machines.ts';
import type { Plan } from './plan.ts';

/**
 * What the sounds of tracks that are audio already would take on top of what stays.
 *
 * @param all the subjects with printed tracks counted as played; asked for only if there are any
 * @param machines memory without them
 */
export const pricePrinted = (
  files: readonly FileUsage[],
  all: () => readonly Subject[],
  machines: readonly MachineMemory[],
  zonesKept: number,
): Plan['printed'] => {
  const parts = files.reduce(
    (sum, { copies }) => sum + copies.filter(({ printed, notes }) => printed && notes > 0).length,
    0,
  );
  if (parts === 0) return { parts, zones: 0, bytes: 0 };
  const subjects = all();
  const decisions = subjects.map((subject) => decide(subject, settledAsPlain(subject.settle)));
  const memory = subjects.map((subject, i) => instrumentMemory(subject, decisions[i]!));
  const before = machines.map(({ machine }) => machine);
  const kept = (list: readonly MachineMemory[]): number =>
    list.reduce((sum, one) => sum + one.kept.bytes, 0);
  const zones = decisions.reduce(
    (sum, { whole }) => sum + whole.why.reduce((n, one) => n + Number(one !== why.dropped), 0),
    0,
  );
  return {
    parts,
    zones: zones - zonesKept,
    bytes: kept(machineFigures(before, subjects, memory)) - kept(machines),
  };
};
