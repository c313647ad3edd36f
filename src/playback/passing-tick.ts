import { doubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { Scope } from './scope.ts';
import type { Voice } from './voices.ts';
import { anyHold, type Moment } from './zone-usage.ts';

const order = doubtSet('order');

/**
 * What fading signals go through within one tick. Its events may have come in any order, so that
 * several faders may have stood at any of their values together, and a note that ends there may have
 * heard all of it.
 */
export class PassingTick {
  #ranges: Range[] | null = null;
  readonly #moved = new Set<number>();
  #ended: Voice[] = [];

  pass(fading: readonly number[], changed: readonly number[], scope: Scope): void {
    const values = fading.map((signal): Range => {
      const now = scope.plainValue(signal);
      if (!changed.includes(signal)) return [now, now];
      this.#moved.add(signal);
      const from = scope.previous(signal).list[0]!.value as number;
      return [Math.min(from, now), Math.max(from, now)];
    });
    this.#ranges =
      this.#ranges?.map(([lo, hi], i): Range => {
        const [least, most] = values[i]!;
        return [Math.min(lo, least), Math.max(hi, most)];
      }) ?? values;
  }

  /** A voice is let go on this tick. */
  ended(voice: Voice): void {
    this.#ended.push(voice);
  }

  /**
   * The tick is over.
   *
   * @param sounding is told what voices that still sound may have gone through
   * @param live is told the same of a voice that ended on the tick
   */
  end(sounding: (moment: Moment) => void, live: (voice: Voice, moment: Moment) => void): void {
    if (this.#ranges !== null && (this.#moved.size > 1 || this.#ended.length > 0)) {
      const moment: Moment = { ranges: this.#ranges, doubt: order, after: 0, hold: anyHold };
      for (const voice of this.#ended) live(voice, moment);
      sounding(moment);
    }
    this.#ranges = null;
    this.#moved.clear();
    this.#ended = [];
  }
}
