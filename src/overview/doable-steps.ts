import type { Check } from '../keep/check/check.ts';
import type { Plan } from '../keep/plan.ts';
import { parseActionKey } from '../trim/worklist/action-key.ts';
import { LoadedZones, Targets } from '../trim/worklist/loaded-zones.ts';
import { MachineMeter } from '../trim/worklist/machine-meter.ts';
import type { SlottedInstrument } from '../trim/worklist/slots.ts';
import type { Worklist, WorklistAction, WorklistMachine } from '../trim/worklist/worklist.ts';
import { missedSteps, stepsAgainst } from './missed-steps.ts';

/** By id of a machine: its steps without those that are against what was checked. */
export type DoableSteps = ReadonlyMap<string, readonly WorklistAction[]>;

/**
 * The steps that may be done, each with what it frees when the others are left out: samples that it
 * shares with one of those stay.
 *
 * @param instruments those of the plan with their copies
 */
export const doableSteps = (
  {
    plan,
    check,
    worklist,
  }: {
    readonly plan: Pick<Plan, 'instruments'>;
    readonly check: Pick<Check, 'misses'>;
    readonly worklist: Pick<Worklist, 'machines'>;
  },
  instruments: readonly SlottedInstrument[],
): DoableSteps => {
  const missed = missedSteps(check.misses, stepsAgainst(worklist, plan.instruments));
  return new Map(
    worklist.machines.map(({ id, actions }) => {
      const doable = actions.filter(({ number }) => !missed.has(number));
      const own = instruments.filter(({ machine }) => machine === id);
      return [id, doable.length === actions.length ? doable : measured(doable, own)];
    }),
  );
};

/** As the worklist measures them: everything loaded at first, then step by step. */
const measured = (
  actions: WorklistMachine['actions'],
  instruments: readonly SlottedInstrument[],
): readonly WorklistAction[] => {
  const loaded = new LoadedZones(instruments);
  const targets = new Targets(instruments);
  const meter = new MachineMeter(instruments, loaded);
  return actions.map((action) => {
    const key = parseActionKey(action.key);
    const target = key === null ? null : targets.find(key);
    if (target === null || typeof target === 'string') {
      throw new RangeError(`step ${String(action.number)} is about nothing of its machine`);
    }
    const before = meter.figure.bytes;
    for (const slot of target.slots) loaded.set(slot, target.zones, action.does);
    meter.changed(target.instrument);
    const total = meter.figure.bytes;
    return { ...action, frees: before - total, total };
  });
};
