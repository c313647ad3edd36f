import type { Instrument } from '../../instruments/instrument.ts';
import { countShared } from '../../keep/count-shared.ts';
import { isOneDefinition } from '../../keep/keep-file/one-definition.ts';
import type { Plan, PlanInstrument, PlanMachine } from '../../keep/plan.ts';
import { machineMemory } from '../../memory/machine-memory.ts';
import type { Template } from '../../template/template.ts';
import { InputError } from '../../terms/errors.ts';
import { finding } from '../../terms/finding.ts';
import { doneZones } from './done-zones.ts';
import type { Ledger } from './ledger/ledger.ts';
import { loadedInstrument } from './loaded-instrument.ts';
import type { LoadedZones } from './loaded-zones.ts';
import { copiesOf } from './machine-meter.ts';
import { slottedInstruments, type SlottedInstrument } from './slots.ts';

/**
 * A plan as if it kept what is really loaded: everything, less what a record says was unloaded. What is
 * loaded and not kept by the plan has the reason `grain` and no notes, and so has what the plan keeps
 * without its samples: it is loaded with them. Figures are those of what is loaded. Doubts and all other
 * prices stay as the plan has them. Instruments of which another definition is at hand stay as they are,
 * as long as nothing was done to them.
 *
 * @param template with the machines, players and readings of the plan
 * @param instruments those at hand, by id
 * @param file the record as the user named it
 * @throws {InputError} `worklist-ledger-stale`; `worklist-instrument-changed` where something was done to
 *   an instrument of which the plan knows another definition
 */
export const loadedPlan = (
  plan: Plan,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  ledger: Ledger,
  file: string | null,
): Plan => {
  const known = new Map(
    plan.instruments.flatMap((one) => {
      const instrument = instruments.get(one.id);
      return instrument !== undefined && isOneDefinition(one, instrument)
        ? [[one.id, instrument] as const]
        : [];
    }),
  );
  checkDefinitions(plan, instruments, known, ledger);
  const slotted = slottedInstruments(plan, template, known);
  const { loaded } = doneZones(slotted, ledger, file, true);
  const byId = new Map(slotted.map((one) => [one.instrument.id, one]));
  const planned = plan.instruments.map((one): PlanInstrument => {
    const found = byId.get(one.id);
    return found === undefined ? one : loadedInstrument(one, found, loaded);
  });
  const machines = plan.machines.map((machine) => loadedMachine(machine, plan, slotted, loaded));
  return { ...plan, instruments: planned, machines, total: totalOf(plan, planned, machines, byId) };
};

/** What is loaded of an instrument follows from a plan by the definition that is at hand. */
const checkDefinitions = (
  plan: Plan,
  instruments: ReadonlyMap<string, Instrument>,
  known: ReadonlyMap<string, Instrument>,
  { entries }: Ledger,
): void => {
  const done = new Set(
    entries.flatMap(({ key, state }) => (state === 'done' ? [key.instrument] : [])),
  );
  const [first, ...others] = plan.instruments.flatMap(({ id }) => {
    const instrument = instruments.get(id);
    if (instrument === undefined || known.has(id) || !done.has(id)) return [];
    const args = { instrument: id };
    return [finding('error', 'worklist-instrument-changed', instrument.source, args)];
  });
  if (first !== undefined) throw new InputError(first, others);
};

/** A machine some of whose instruments are not at hand stays as it is. */
const loadedMachine = (
  machine: PlanMachine,
  { instruments }: Plan,
  slotted: readonly SlottedInstrument[],
  loaded: LoadedZones,
): PlanMachine => {
  const { id, budget, bytes } = machine;
  const planned = instruments.filter((one) => one.machine === id);
  const own = planned.flatMap((one) =>
    slotted.filter(({ instrument }) => instrument.id === one.id),
  );
  if (own.length < planned.length) return machine;
  const inOrder = slotted.filter((one) => own.includes(one));
  const figure = machineMemory(inOrder.map((one) => ({ ...one, copies: copiesOf(one, loaded) })));
  return {
    ...machine,
    bytes: { full: bytes.full, kept: figure.bytes, low: figure.low, high: figure.high },
    fits: budget === null ? null : figure.high <= budget,
  };
};

const totalOf = (
  { total }: Plan,
  planned: readonly PlanInstrument[],
  machines: readonly PlanMachine[],
  byId: ReadonlyMap<string, SlottedInstrument>,
): Plan['total'] => {
  const kept = machines.reduce((sum, { bytes }) => sum + bytes.kept, 0);
  const bytes = { ...total.bytes, kept, saved: total.bytes.full - kept };
  const all = planned.flatMap(({ id }) => byId.get(id) ?? []);
  return all.length < planned.length
    ? { ...total, bytes }
    : { bytes, ...countShared(planned, all) };
};
