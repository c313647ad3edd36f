import type { Program } from '../../../instruments/program.ts';
import { programFor } from '../../../playback/play-cue.ts';
import type { CopyUsage } from '../../../playback/zone-usage.ts';
import { Reacher } from '../../reacher.ts';
import { PlayedCopy, type PlayedClass } from './played-copy.ts';
import type { WaysContext } from './ways-context.ts';

/** All that the checked cues play on an instrument, held against what is kept of it. */
export class Played {
  readonly copies: readonly PlayedCopy[];
  readonly #context: WaysContext;
  readonly #usages: readonly CopyUsage[];
  readonly #asking = new Map<number, PlayedClass[]>();

  constructor(context: WaysContext) {
    const { instrument, files } = context;
    this.#context = context;
    this.#usages = files.flatMap(({ copies }) =>
      copies.filter((copy) => copy.instrument === instrument.id),
    );
    const reachers = new Map<string | null, Reacher>();
    this.copies = this.#usages.map((usage) => {
      const { articulation } = usage;
      const program = programFor(instrument, articulation);
      let reacher = reachers.get(articulation);
      if (reacher === undefined) {
        reacher = this.reacher(program, (copy) => copy.articulation === articulation);
        reachers.set(articulation, reacher);
      }
      return new PlayedCopy(usage, program, reacher, {
        excluded: context.excluded,
        isLoaded: (zone, start) => context.isLoaded(usage.copy, zone, start),
        isKept: (zone) => context.isKept(usage.copy, zone),
      });
    });
    for (const one of this.copies.flatMap(({ classes }) => classes)) {
      for (const zone of one.now.missing) {
        const asking = this.#asking.get(zone);
        if (asking === undefined) this.#asking.set(zone, [one]);
        else asking.push(one);
      }
    }
  }

  /** Classes that ask for a zone that is missing. @param copy null: in any copy */
  asking(zone: number, copy: string | null): readonly PlayedClass[] {
    const all = this.#asking.get(zone) ?? [];
    return copy === null ? all : all.filter((one) => one.copy.usage.copy === copy);
  }

  /** What the cues play on the copies of some classes: a copy in every file that drives it. */
  concerned(asking: readonly PlayedClass[]): readonly PlayedCopy[] {
    const names = new Set(asking.map(({ copy }) => copy.usage.copy));
    return this.copies.filter(({ usage }) => names.has(usage.copy));
  }

  /** Finds what a program reaches. @param learns which copies' choices it takes into account */
  reacher(program: Program, learns: (copy: CopyUsage) => boolean = () => true): Reacher {
    const reacher = new Reacher(program);
    for (const copy of this.#context.learned) reacher.learn(copy);
    for (const copy of this.#usages) if (learns(copy)) reacher.learn(copy);
    return reacher;
  }
}
