import type { Limit } from './limit.ts';
import { signalLimits } from './limit.ts';
import { LimitedUsage } from './limited-usage.ts';
import type { Outcome } from './outcome.ts';
import type { PlayedClass, PlayedCopy } from './played-copy.ts';

/**
 * What a cue file plays on a copy, with a controller kept within a limit. Usage does not tell a value
 * that was sent from one that was there before anything was sent, or after a reset, and only what is
 * sent can be kept within a limit. So a value that might have been there counts as both when it is
 * asked what is missing, and as sent when it is asked what sounds.
 */
export class LimitedCopy {
  readonly #copy: PlayedCopy;
  readonly #widely: LimitedUsage;
  readonly #sent: LimitedUsage;
  readonly #outcomes = new Map<PlayedClass, Outcome>();
  #isHarmless: boolean | null = null;

  constructor(copy: PlayedCopy, limit: Limit) {
    const { usage, program } = copy;
    const limits = signalLimits(program, limit, true);
    const hasGiven = [...limits.values()].some((one) => one.hasGiven);
    this.#copy = copy;
    this.#widely = new LimitedUsage(usage, program, limits);
    this.#sent = hasGiven
      ? new LimitedUsage(usage, program, signalLimits(program, limit, false))
      : this.#widely;
  }

  /** Nothing that the class asks for is missing then. */
  isCovered(one: PlayedClass): boolean {
    return this.#outcome(one).missing.length === 0;
  }

  /** Nothing is missing then that is not missing now, and every note that sounds does so still. */
  get isHarmless(): boolean {
    this.#isHarmless ??= this.#copy.classes.every((one) => {
      const { missing, heard } = this.#outcome(one);
      const { now } = one;
      if (one.class.event === 'note-on' && heard < now.heard) return false;
      return missing.every((zone) => now.missing.includes(zone));
    });
    return this.#isHarmless;
  }

  #outcome(one: PlayedClass): Outcome {
    let found = this.#outcomes.get(one);
    if (found === undefined) {
      const widely = this.#in(this.#widely, one);
      found =
        this.#sent === this.#widely
          ? widely
          : { ...widely, heard: this.#in(this.#sent, one).heard };
      this.#outcomes.set(one, found);
    }
    return found;
  }

  #in(limited: LimitedUsage, { class: one, now }: PlayedClass): Outcome {
    const changed = limited.class(one);
    return changed === null ? now : this.#copy.outcome(changed, limited.usage);
  }
}
