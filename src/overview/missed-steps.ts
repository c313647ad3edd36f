import type { Miss } from '../keep/check/check.ts';
import { isPlain } from '../keep/check/is-plain.ts';
import type { PlanInstrument } from '../keep/plan.ts';
import type { Worklist, WorklistAction } from '../trim/worklist/worklist.ts';
import type { OverviewStep } from './overview-steps.ts';

/** Numbers of the steps of a worklist that unload what a miss asks for. */
export type StepsOf = (miss: Miss) => readonly number[];

/**
 * Which steps of a worklist are against which misses.
 *
 * @param instruments of the plan
 */
export const stepsAgainst = (
  { machines }: Pick<Worklist, 'machines'>,
  instruments: readonly Pick<PlanInstrument, 'id' | 'copies'>[],
): StepsOf => {
  const copiesOf = new Map(
    instruments.map(({ id, copies }) => [id, new Set(copies.map(({ name }) => name))]),
  );
  const byZone = new Map<string, Map<number, WorklistAction[]>>();
  for (const action of machines.flatMap(({ actions }) => actions)) {
    if (action.does !== 'unload') continue;
    const zones = byZone.get(action.instrument) ?? new Map<number, WorklistAction[]>();
    byZone.set(action.instrument, zones);
    for (const zone of action.zones) {
      const own = zones.get(zone);
      if (own === undefined) zones.set(zone, [action]);
      else own.push(action);
    }
  }
  return ({ instrument, zone, copy }) => {
    const isPlanned = copy !== null && copiesOf.get(instrument)?.has(copy) === true;
    return (byZone.get(instrument)?.get(zone) ?? [])
      .filter((action) =>
        // A spare copy is one that no cue of the plan plays: what those play needs none of it.
        action.spareCopies > 0
          ? copy !== null && !isPlanned
          : action.copy === null || copy === null || action.copy === copy,
      )
      .map(({ number }) => number);
  };
};

/** By number of a step: whether what it unloads is asked for plainly, or in doubt only. */
export const missedSteps = (
  misses: readonly Miss[],
  stepsOf: StepsOf,
): ReadonlyMap<number, NonNullable<OverviewStep['missed']>> => {
  const missed = new Map<number, NonNullable<OverviewStep['missed']>>();
  for (const miss of misses) {
    for (const number of stepsOf(miss)) {
      if (isPlain(miss)) missed.set(number, 'plain');
      else if (!missed.has(number)) missed.set(number, 'doubt');
    }
  }
  return missed;
};
