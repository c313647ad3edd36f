import { makePlan } from '../keep/make-plan.ts';
import type { Plan } from '../keep/plan.ts';
import { preparePlan, type PlanOptions } from './prepare-plan.ts';

export type { PlanOptions } from './prepare-plan.ts';

/**
 * Finds what the cues reach in their instruments: the keep sets, their reasons, the memory they save
 * on each machine, and what every doubt costs.
 *
 * A cue that can't be read does not stop it: its state is `unreadable` and everything is kept for it.
 *
 * @throws {InputError} when an argument names nothing, or an instrument can't be trusted
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when a preset, a cue to leave out or a pin is not well named
 */
export const plan = async (options: PlanOptions): Promise<Plan> => {
  const { input } = await preparePlan(options);
  await options.onStep?.({ doing: 'working out', name: 'what stays', count: null });
  return makePlan(input);
};
