import type { Program } from '../../../instruments/program.ts';
import type { CopyUsage, UsageClass } from '../../../playback/zone-usage.ts';
import { plain } from '../../../terms/doubt.ts';
import { noHeadroom } from '../../../template/template.ts';
import type { Reacher } from '../../reacher.ts';
import { outcomeOf, type Loaded, type Outcome } from './outcome.ts';

/** A class of usage, and what becomes of it as it is played. */
export interface PlayedClass {
  readonly copy: PlayedCopy;
  readonly class: UsageClass;
  readonly now: Outcome;
}

/** What one cue file plays on one copy of the instrument. */
export class PlayedCopy {
  readonly usage: CopyUsage;
  readonly program: Program;
  readonly classes: readonly PlayedClass[];
  readonly #reacher: Reacher;
  readonly #loaded: Loaded;
  #byNote: Map<number, PlayedClass[]> | null = null;
  #isRetuned: boolean | null = null;

  /** @param reacher of `program`, with all choices of the reel learned */
  constructor(usage: CopyUsage, program: Program, reacher: Reacher, loaded: Loaded) {
    this.usage = usage;
    this.program = program;
    this.#reacher = reacher;
    this.#loaded = loaded;
    this.classes = usage.classes.map((one) => ({
      copy: this,
      class: one,
      now: this.outcome(one),
    }));
  }

  /** What would become of a class. @param usage the copy's, or a variant of it */
  outcome(one: UsageClass, usage = this.usage, reacher = this.#reacher): Outcome {
    return outcomeOf(reacher.starts(usage, one, noHeadroom), this.#loaded);
  }

  isLoaded(zone: number, start: number): boolean {
    return this.#loaded.isLoaded(zone, start);
  }

  /** Classes of all that notes of a key and velocity start, from strike to release. */
  ofNote(key: number, velocity: number): readonly PlayedClass[] {
    this.#byNote ??= byNote(this.classes);
    return this.#byNote.get(noteNumber(key, velocity)) ?? [];
  }

  /** Notes also sound on other keys than their own: usage does not tell on which they were struck. */
  get isRetuned(): boolean {
    this.#isRetuned ??= this.usage.classes.some(
      ({ event, doubt }) => event === 'note-on' && doubt !== plain,
    );
    return this.#isRetuned;
  }
}

/** A key and a velocity as one number. */
export const noteNumber = (key: number, velocity: number): number => key * 128 + velocity;

const byNote = (classes: readonly PlayedClass[]): Map<number, PlayedClass[]> => {
  const found = new Map<number, PlayedClass[]>();
  for (const one of classes) {
    const { event, key, velocity } = one.class;
    if (event === 'change') continue;
    const number = noteNumber(key, velocity);
    const alike = found.get(number);
    if (alike === undefined) found.set(number, [one]);
    else alike.push(one);
  }
  return found;
};
