import type { FileUsage } from '../../playback/zone-usage.ts';
import { decide, type Subject } from '../decision.ts';
import { keptAmount, type KeptAmount } from '../kept-amount.ts';
import type { HeadroomStep, PlanHeadroomCurve } from '../plan.ts';
import { holdTrial } from './hold-trial.ts';
import { ladder, ladderPoints, type LadderPoint } from './ladder.ts';
import { InstrumentInParts } from './part-of-reel.ts';
import { trialsOf } from './trials.ts';

/**
 * How much room around the other cues would have been enough for each cue, and around each version of
 * a cue for the next (design, section 6: headroom). The headroom of the template does not count.
 *
 * Of all that is tried it lists none, then each step that serves more than any that costs no more, and
 * ends with one that serves all; where none does, with the most.
 *
 * @param subjects of the whole reel
 * @param files in reel order, without printed tracks; played with all rooms of the {@link ladder}
 */
export const headroomCurve = (
  subjects: readonly Subject[],
  files: readonly FileUsage[],
): PlanHeadroomCurve => {
  const instruments = subjects.map((subject) => new InstrumentInParts(subject, ladder));
  const trials = trialsOf(files);
  const served = trials.map((trial) => holdTrial(trial, instruments));
  const prices = pricesOf(instruments, files);
  const none = prices[0]!;
  const steps = ladderPoints.map(({ headroom }, point): HeadroomStep => {
    const isServed = (kind: 'cue' | 'revision'): number =>
      trials.filter((trial, i) => trial.kind === kind && served[i]![point]!).length;
    return {
      headroom,
      cuesServed: isServed('cue'),
      revisionsServed: isServed('revision'),
      missed: trials.flatMap(({ name }, i) => (served[i]![point]! ? [] : [name])),
      // A reading of the player's display may say less of a larger state.
      zones: Math.max(0, prices[point]!.zones - none.zones),
      bytes: Math.max(0, prices[point]!.bytes - none.bytes),
    };
  });
  const ofKind = (wanted: 'cue' | 'revision'): number =>
    trials.filter(({ kind }) => kind === wanted).length;
  return { cues: ofKind('cue'), revisions: ofKind('revision'), steps: worthwhile(steps) };
};

/** What stays of the whole reel at each point. */
const pricesOf = (
  instruments: readonly InstrumentInParts[],
  files: readonly FileUsage[],
): readonly KeptAmount[] => {
  const parts = instruments.map((instrument) => instrument.part(files));
  return ladderPoints.map(({ headroom: { keys }, room }: LadderPoint) => {
    const subjects = instruments.map((one, i) => one.subjectOf(parts[i]!, room, keys, true));
    return keptAmount(
      subjects,
      subjects.map((subject) => decide(subject, 0)),
    );
  });
};

const servedBy = ({ cuesServed, revisionsServed }: HeadroomStep): number =>
  cuesServed + revisionsServed;

/** The first of the cheapest for each number of cues served. @param all none first, the most last */
export const worthwhile = (all: readonly HeadroomStep[]): readonly HeadroomStep[] => {
  const [none, ...others] = all;
  const most = all.at(-1);
  if (none === undefined || most === undefined) return [];
  const steps = [none];
  const byPrice = others
    .map((step, i) => ({ step, i }))
    .sort(
      (a, b) => a.step.bytes - b.step.bytes || servedBy(b.step) - servedBy(a.step) || a.i - b.i,
    );
  for (const { step } of byPrice) {
    const last = steps.at(-1)!;
    if (last.missed.length === 0) break;
    if (servedBy(step) > servedBy(last)) steps.push(step);
  }
  const last = steps.at(-1)!;
  return last.missed.length === 0 || last === most ? steps : [...steps, most];
};
