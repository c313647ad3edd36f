import type { WorklistAction } from '../trim/worklist/worklist.ts';
import type { OverviewInput } from './overview-input.ts';
import {
  mostActions,
  type OverviewAction,
  type OverviewList,
  type OverviewStep,
} from './overview-steps.ts';
import { placesOf } from './by-id.ts';
import type { DoableSteps } from './doable-steps.ts';
import { missedSteps, stepsAgainst } from './missed-steps.ts';
import { slightSteps } from './slight-steps.ts';

/**
 * The steps that free most, those of one articulation together: nobody unloads a layer for its own sake.
 * Of equals the one with the lower number is first, as it is on the list. What was checked needs none of
 * what they unload.
 */
export const overviewActions = ({
  plan,
  check,
  worklist,
}: Pick<OverviewInput, 'plan' | 'check' | 'worklist'>): readonly OverviewAction[] => {
  const missed = missedSteps(check.misses, stepsAgainst(worklist, plan.instruments));
  const instrumentOf = placesOf(plan.instruments);
  const machineOf = placesOf(plan.machines);
  return worklist.machines
    .flatMap(({ id, actions }) => {
      const machine = machineOf(id);
      return toldTogether(actions.filter(({ number }) => !missed.has(number))).map(
        (steps): OverviewAction => {
          const { instrument, unit, spareCopies } = steps[0]!;
          const isWhole = unit.grain === 'instrument' || spareCopies > 0;
          return {
            numbers: steps.map(({ number }) => number).sort((a, b) => a - b),
            machine,
            instrument: instrumentOf(instrument),
            articulations: isWhole ? [] : unit.articulations,
            frees: steps.reduce((sum, { frees }) => sum + frees, 0),
          };
        },
      );
    })
    .filter(({ frees }) => frees > 0)
    .sort((a, b) => b.frees - a.frees || a.numbers[0]! - b.numbers[0]!)
    .slice(0, mostActions);
};

const toldTogether = (
  actions: readonly WorklistAction[],
): readonly (readonly WorklistAction[])[] => {
  const groups = new Map<string, WorklistAction[]>();
  for (const action of actions) {
    const key = togetherWith(action);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [action]);
    else group.push(action);
  }
  return [...groups.values()];
};

/** The same for steps that are told as one. */
const togetherWith = ({ does, instrument, spareCopies, unit, number }: WorklistAction): string => {
  const { grain, articulations, microphone } = unit;
  const isApart = grain === 'instrument' || spareCopies > 0;
  return JSON.stringify([does, instrument, ...(isApart ? [number] : [articulations, microphone])]);
};

/** All steps, their zones counted, and those marked that are against what was checked. */
export const overviewLists = (
  { plan, check, worklist }: Pick<OverviewInput, 'plan' | 'check' | 'worklist'>,
  doable: DoableSteps,
): readonly OverviewList[] => {
  const missed = missedSteps(check.misses, stepsAgainst(worklist, plan.instruments));
  const machineOf = placesOf(plan.machines);
  return worklist.machines.map((machine) => ({
    ...machine,
    actions: machine.actions.map((action) => stepOf(action, missed.get(action.number) ?? null)),
    unlisted: { steps: 0, frees: 0 },
    slight: slightSteps(plan.machines[machineOf(machine.id)]!, doable.get(machine.id) ?? []),
  }));
};

const stepOf = (action: WorklistAction, missed: OverviewStep['missed']): OverviewStep => {
  const { number, does, instrument, copy, spareCopies, unit, zones, samples } = action;
  const { unknownSamples, keeps, frees, total, seen, note } = action;
  return {
    ...{ number, does, instrument, copy, spareCopies, unit, zones: zones.length, samples },
    ...{ unknownSamples, keeps, frees, total, seen, note, missed },
  };
};
