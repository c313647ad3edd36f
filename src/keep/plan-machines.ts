import type { Figure } from '../memory/figure.ts';
import type { LoadedInstrument } from '../memory/loaded.ts';
import { machineMemory } from '../memory/machine-memory.ts';
import type { Machine } from '../template/machine.ts';
import type { Subject } from './decision.ts';
import type { PlanMachine } from './plan.ts';
import type { InstrumentMemory } from './plan-instrument.ts';

/** A machine's memory: all of its instruments, what the score reaches, and what stays. */
export interface MachineMemory {
  readonly machine: Machine;
  readonly full: Figure;
  readonly reached: Figure;
  readonly kept: Figure;
}

/** Memory by machine; samples that instruments on one machine share count once. */
export const machineFigures = (
  machines: readonly Machine[],
  subjects: readonly Subject[],
  memory: readonly InstrumentMemory[],
): readonly MachineMemory[] =>
  machines.map((machine) => {
    const own = memory.filter((_, i) => subjects[i]!.machine === machine.id);
    const sum = (pick: (one: InstrumentMemory) => LoadedInstrument): Figure =>
      machineMemory(own.map(pick));
    return {
      machine,
      full: sum(({ full }) => full),
      reached: sum(({ reached }) => reached),
      kept: sum(({ kept }) => kept),
    };
  });

/** Whether it fits is judged on the high figure. */
export const planMachine = ({
  machine: { id, budget },
  full,
  kept,
}: MachineMemory): PlanMachine => ({
  id,
  budget,
  bytes: { full: full.bytes, kept: kept.bytes, low: kept.low, high: kept.high },
  fits: budget === null ? null : kept.high <= budget,
});
