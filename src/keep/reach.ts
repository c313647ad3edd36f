import type { Instrument } from '../instruments/instrument.ts';
import type { CopyUsage, FileUsage, UsageClass } from '../playback/zone-usage.ts';
import { programFor } from '../playback/play-cue.ts';
import { noHeadroom, type Headroom } from '../template/template.ts';
import { union, type DoubtSet } from '../terms/doubt.ts';
import { Reacher, type ReachedStart } from './reacher.ts';

/** One class of usage, with all it reaches. */
export interface ReachedClass {
  readonly file: FileUsage;
  readonly copy: CopyUsage;
  readonly class: UsageClass;
  /** Its key is a switch and plays nothing. */
  readonly isSwitch: boolean;
  /** Empty when nothing sounds. */
  readonly starts: readonly ReachedStart[];
  /** What starts without a sound, to stop something else. */
  readonly silent: readonly ReachedStart[];
  /** What it reaches when it is widened by the headroom; empty where there is none. */
  readonly widened: readonly ReachedStart[];
}

/** What a copy chose somewhere. */
export type LearnedCopy = Pick<CopyUsage, 'copy' | 'chosen'>;

/**
 * Walks all usage of an instrument in the order of `files`, class by class.
 *
 * @param learned choices of copies in cues that are not among `files`
 */
export function* reachedClasses(
  instrument: Instrument,
  files: readonly FileUsage[],
  headroom: Headroom = noHeadroom,
  learned: readonly LearnedCopy[] = [],
): Generator<ReachedClass> {
  const copies = files.flatMap((file) =>
    file.copies.filter((copy) => copy.instrument === instrument.id).map((copy) => ({ file, copy })),
  );
  const widens = headroom.keys > 0 || headroom.velocity > 0 || headroom.controller > 0;
  const reachers = new Map<string | null, Reacher>();
  const reacherOf = ({ articulation }: CopyUsage): Reacher => {
    let found = reachers.get(articulation);
    if (found === undefined) {
      found = new Reacher(programFor(instrument, articulation));
      for (const copy of learned) found.learn(copy);
      reachers.set(articulation, found);
    }
    return found;
  };
  for (const { copy } of copies) reacherOf(copy).learn(copy);
  for (const { file, copy } of copies) {
    const reacher = reacherOf(copy);
    for (const one of copy.classes) {
      const all = reacher.starts(copy, one, noHeadroom);
      const starts = all.some(isSilent) ? all.filter((start) => !isSilent(start)) : all;
      const silent = starts === all ? [] : all.filter(isSilent);
      const isSwitch = one.event !== 'change' && reacher.onlySwitches(one.key);
      const wider = widens && !isSwitch ? reacher.starts(copy, one, headroom) : [];
      const widened = wider.filter((start) => !isSilent(start));
      yield { file, copy, class: one, isSwitch, starts, silent, widened };
    }
  }
}

const isSilent = ({ start }: ReachedStart): boolean => start.silent === true;

/** M(z) for every zone: the minimal doubt sets under which the score reaches it; empty: it does not. */
export const zoneDoubts = (
  instrument: Instrument,
  files: readonly FileUsage[],
): readonly (readonly DoubtSet[])[] => {
  const doubts: (readonly DoubtSet[])[] = instrument.zones.map(() => []);
  for (const { starts } of reachedClasses(instrument, files)) {
    for (const { start, doubts: some } of starts) {
      doubts[start.zone] = union(doubts[start.zone]!, some);
    }
  }
  return doubts;
};
