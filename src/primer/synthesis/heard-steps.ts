import { Reacher } from '../../keep/reacher.ts';
import { asExported, playCopy } from '../../playback/play-copy.ts';
import { copyStream } from '../../playback/copies.ts';
import { programFor } from '../../playback/play-cue.ts';
import { noHeadroom } from '../../template/template.ts';
import { doubtSet, plain, within, type DoubtSet } from '../../terms/doubt.ts';
import type { CopyToPrime, LaneGroup, PrimingStep } from '../lanes.ts';
import { stepsScore } from './steps-score.ts';

/** What a player may load without any engine being unusual: no note may start a dropped zone so. */
const forbidden = doubtSet('order', 'start-state', 'slack', 'smoothing', 'tail');

/** What the engine says that steps start in a copy. */
export interface HeardSteps {
  /** By step, zones that it starts for certain. */
  readonly zones: readonly ReadonlySet<number>[];
  /** Steps whose notes start what was dropped. */
  readonly strays: ReadonlySet<number>;
}

/** True when dropped zones may not be started so. */
export const isStray = (doubts: readonly DoubtSet[], excluded: DoubtSet): boolean =>
  doubts.some((doubt) => (doubt & excluded) === 0 && within(doubt, forbidden));

/** Plays steps through the engine, copy by copy of the group: it has the last word. */
export const heardSteps = (
  { copies }: LaneGroup,
  steps: readonly PrimingStep[],
): readonly HeardSteps[] => {
  const tracks = 1 + Math.max(...copies.flatMap(({ copy }) => copy.sources.map((s) => s.track)));
  const { score, begins } = stepsScore(steps, tracks);
  const stepAt = (tick: number): number => {
    let lo = 0;
    let hi = begins.length;
    while (hi - lo > 1) {
      const middle = (lo + hi) >> 1;
      if (begins[middle]! <= tick) lo = middle;
      else hi = middle;
    }
    return lo;
  };
  return copies.map((one) => heardBy(one, score, steps.length, stepAt));
};

const heardBy = (
  { instrument, copy, kept, excluded, slack = 0 }: CopyToPrime,
  score: Parameters<typeof copyStream>[0],
  count: number,
  stepAt: (tick: number) => number,
): HeardSteps => {
  const program = programFor(instrument, copy.articulation);
  const stream = copyStream(score, copy, program);
  const { instrument: id, articulation, printed } = copy;
  const usage = {
    ...{ instrument: id, articulation, printed },
    ...playCopy(program, stream, { ...asExported, slack, everyPlace: true }),
  };
  const reacher = new Reacher(program);
  reacher.learn(usage);
  const zones = Array.from({ length: count }, () => new Set<number>());
  const strays = new Set<number>();
  for (const one of usage.classes) {
    const steps = new Set(one.witnesses.map(([, tick]) => stepAt(tick)));
    for (const { start, doubts } of reacher.starts(usage, one, noHeadroom)) {
      if (start.silent === true) continue;
      if (kept[start.zone] !== 1) {
        if (isStray(doubts, excluded)) for (const step of steps) strays.add(step);
      } else if (doubts[0] === plain) for (const step of steps) zones[step]!.add(start.zone);
    }
  }
  return { zones, strays };
};
