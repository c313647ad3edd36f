import type { Worklist, WorklistAction } from '../trim/worklist/worklist.ts';
import type { OverviewInput } from './overview-input.ts';
import {
  mostActions,
  type OverviewAction,
  type OverviewList,
  type OverviewStep,
} from './overview-steps.ts';
import { placesOf } from './by-id.ts';

/** The steps that free most. Of equals the one with the lower number is first, as it is on the list. */
export const overviewActions = ({
  plan,
  worklist,
}: Pick<OverviewInput, 'plan' | 'worklist'>): readonly OverviewAction[] => {
  const instrumentOf = placesOf(plan.instruments);
  const machineOf = placesOf(plan.machines);
  return worklist.machines
    .flatMap(({ id, actions }) => {
      const machine = machineOf(id);
      return actions.map(({ number, instrument, frees }) => ({
        number,
        machine,
        instrument: instrumentOf(instrument),
        frees,
      }));
    })
    .filter(({ frees }) => frees > 0)
    .sort((a, b) => b.frees - a.frees || a.number - b.number)
    .slice(0, mostActions);
};

/** All steps, their zones counted. */
export const overviewLists = ({ machines }: Worklist): readonly OverviewList[] =>
  machines.map((machine) => ({
    ...machine,
    actions: machine.actions.map(stepOf),
    unlisted: { steps: 0, frees: 0 },
  }));

const stepOf = (action: WorklistAction): OverviewStep => {
  const { number, does, instrument, copy, spareCopies, unit, zones, samples } = action;
  const { unknownSamples, keeps, frees, total, seen, note } = action;
  return {
    ...{ number, does, instrument, copy, spareCopies, unit, zones: zones.length, samples },
    ...{ unknownSamples, keeps, frees, total, seen, note },
  };
};
