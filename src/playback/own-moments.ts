import type { DoubtSet } from '../terms/doubt.ts';
import type { Moment } from './zone-usage.ts';

interface Made {
  readonly more: DoubtSet;
  readonly after: number;
  readonly moments: readonly Moment[];
}

/** Moments as voices of one kind have them; those of a list that comes again are made once. */
export class OwnMoments {
  readonly #hold: number;
  readonly #doubt: DoubtSet;
  readonly #made = new WeakMap<readonly Moment[], Made[]>();

  /**
   * @param hold index of the hold that they belong to, or `anyHold`
   * @param doubt of this way to hold voices
   */
  constructor(hold: number, doubt: DoubtSet) {
    this.#hold = hold;
    this.#doubt = doubt;
  }

  /** @param more doubts that are added */
  one({ ranges, doubt, after }: Moment, more: DoubtSet, from = after): Moment {
    return { ranges, doubt: doubt | more | this.#doubt, after: from, hold: this.#hold };
  }

  /** @param after seconds from the release */
  all(moments: readonly Moment[], more: DoubtSet, after: number): readonly Moment[] {
    let list = this.#made.get(moments);
    if (list === undefined) this.#made.set(moments, (list = []));
    for (const made of list) if (made.more === more && made.after === after) return made.moments;
    const own = moments.map((moment) => this.one(moment, more, after));
    list.push({ more, after, moments: own });
    return own;
  }
}
