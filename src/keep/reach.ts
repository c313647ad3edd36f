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

/** What a copy chose somewhere; tied to an articulation, it is told that program alone. */
export type LearnedCopy = Pick<CopyUsage, 'copy' | 'chosen'> &
  Partial<Pick<CopyUsage, 'articulation'>>;

/**
 * Walks all usage of an instrument in the order of `files`, class by class.
 *
 * @param learned choices of copies in cues that are not among `files`
 */
export const reachedClasses = (
  instrument: Instrument,
  files: readonly FileUsage[],
  headroom: Headroom = noHeadroom,
  learned: readonly LearnedCopy[] = [],
): Generator<ReachedClass> =>
  new ReelReader(instrument, [...learned, ...usagesOf(instrument, files)], headroom).classes(files);

/** Reads usage of an instrument, any files of a reel, by what its copies choose in all of it. */
export class ReelReader {
  readonly #instrument: Instrument;
  readonly #learned: readonly LearnedCopy[];
  readonly #headroom: Headroom;
  readonly #widens: boolean;
  /** By articulation that a route ties copies to. */
  readonly #reachers = new Map<string | null, Reacher>();

  constructor(instrument: Instrument, learned: readonly LearnedCopy[], headroom: Headroom) {
    this.#instrument = instrument;
    this.#learned = learned;
    this.#headroom = headroom;
    this.#widens = headroom.keys > 0 || headroom.velocity > 0 || headroom.controller > 0;
  }

  *classes(files: readonly FileUsage[]): Generator<ReachedClass> {
    const { id } = this.#instrument;
    for (const file of files) {
      for (const copy of file.copies) {
        if (copy.instrument !== id) continue;
        const reacher = this.#reacher(copy);
        for (const one of copy.classes) {
          const all = reacher.starts(copy, one, noHeadroom);
          const starts = all.some(isSilent) ? all.filter((start) => !isSilent(start)) : all;
          const silent = starts === all ? [] : all.filter(isSilent);
          const isSwitch = one.event !== 'change' && reacher.onlySwitches(one.key);
          const wider = this.#widens && !isSwitch ? reacher.starts(copy, one, this.#headroom) : [];
          const widened = wider.filter((start) => !isSilent(start));
          yield { file, copy, class: one, isSwitch, starts, silent, widened };
        }
      }
    }
  }

  #reacher({ articulation }: CopyUsage): Reacher {
    let found = this.#reachers.get(articulation);
    if (found === undefined) {
      found = new Reacher(programFor(this.#instrument, articulation));
      for (const copy of this.#learned) {
        if (copy.articulation === undefined || copy.articulation === articulation)
          found.learn(copy);
      }
      this.#reachers.set(articulation, found);
    }
    return found;
  }
}

/** What the copies of an instrument are asked for. */
export const usagesOf = ({ id }: Instrument, files: readonly FileUsage[]): readonly CopyUsage[] =>
  files.flatMap(({ copies }) => copies.filter((copy) => copy.instrument === id));

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
