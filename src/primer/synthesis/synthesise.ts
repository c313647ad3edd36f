import type { LaneGroup, LaneMessage, PrimingStep, Synthesis } from '../lanes.ts';
import { heardSteps, type HeardSteps } from './heard-steps.ts';
import { isPedalUp, restoring } from './restoring.ts';
import { chanceOf } from './takes.ts';
import { Sequence, zoneText, type Failure, type PlacedStep } from './sequence.ts';

/** Rounds in which ways are ruled out one by one; after them, zones. */
const patientRounds = 8;

const mostRounds = 40;

/**
 * Notes that start the wanted zones of a group's copies for certain, and nothing that was dropped in
 * any of them. What a plain reading finds is played through the engine; where that disagrees, the way
 * is ruled out and another one looked for.
 */
export const synthesise = (group: LaneGroup): Synthesis => {
  const upwards = attempt(group, false);
  if (!upwards.notPrimed.flat().some(({ because }) => because === 'others')) return upwards;
  const downwards = attempt(group, true);
  return primedBy(downwards) > primedBy(upwards) ? downwards : upwards;
};

const primedBy = ({ primed }: Synthesis): number =>
  primed.reduce((sum, { length }) => sum + length, 0);

const attempt = (group: LaneGroup, isReversed: boolean): Synthesis => {
  const banned = new Set<string>();
  const hopeless = new Map<string, Failure>();
  for (let round = 0; round < mostRounds; round++) {
    const sequence = new Sequence(group, banned, hopeless).run(isReversed);
    const { steps, failed } = sequence;
    let restore = sequence.harmless(restoring(group, messagesOf(steps)));
    let heard = withEnd(group, steps, restore);
    if (heard.some(({ strays }) => strays.has(steps.length))) {
      // Pressing a switch, or a fader that moves back, would load something: it stays as it is.
      restore = restore.filter(isPedalUp);
      heard = withEnd(group, steps, restore);
    }
    for (const [zone, failure] of failed) hopeless.set(zone, failure);
    const bad = badSteps(group, steps, heard);
    if (bad.length === 0) return resultOf(group, steps, failed, heard, restore);
    for (const { way, target } of bad) {
      banned.add(way);
      if (round >= patientRounds) banned.add(zoneText(target));
    }
  }
  return resultOf(group, [], new Map(), heardSteps(group, []), []);
};

const withEnd = (
  group: LaneGroup,
  steps: readonly PlacedStep[],
  restore: readonly LaneMessage[],
): readonly HeardSteps[] => {
  const end: PrimingStep = { messages: restore, seconds: 1, notes: 0 };
  return heardSteps(group, [...steps.map(({ step }) => step), end]);
};

const messagesOf = (steps: readonly PlacedStep[]): readonly LaneMessage[] =>
  steps.flatMap(({ step }) => step.messages);

/** Steps that start what they should not, or do not start what they are there for. */
const badSteps = (
  { copies }: LaneGroup,
  steps: readonly PlacedStep[],
  heard: readonly HeardSteps[],
): readonly PlacedStep[] => {
  const primed = copies.map((_, i) => new Set(heard[i]!.zones.flatMap((zones) => [...zones])));
  return steps.filter(
    ({ target }, i) =>
      heard.some(({ strays }) => strays.has(i)) || !primed[target.copy]!.has(target.zone),
  );
};

const resultOf = (
  group: LaneGroup,
  steps: readonly PlacedStep[],
  failed: ReadonlyMap<string, Failure>,
  heard: readonly HeardSteps[],
  restore: Synthesis['restore'],
): Synthesis => {
  const started = heard.map(({ zones }) => new Set(zones.flatMap((some) => [...some])));
  return {
    group,
    steps: steps.map(({ step }) => step),
    restore,
    primed: group.copies.map(({ wanted }, i) => wanted.filter((zone) => started[i]!.has(zone))),
    notPrimed: group.copies.map(({ wanted }, copy) =>
      wanted
        .filter((zone) => !started[copy]!.has(zone))
        .map((zone) => ({
          zone,
          because: failed.get(zoneText({ copy, zone })) ?? ('others' as const),
        })),
    ),
    chances: group.copies.map(({ instrument }, i) =>
      chanceOf(
        instrument,
        [...started[i]!],
        (zone) => heard[i]!.zones.filter((zones) => zones.has(zone)).length,
      ),
    ),
  };
};
