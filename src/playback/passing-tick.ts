import { doubtSet } from '../terms/doubt.ts';
import { combined, type Choice } from './first-moments.ts';
import type { Sound } from './sound.ts';
import type { Voice } from './voices.ts';
import type { Moment } from './zone-usage.ts';

const order = doubtSet('order');

/**
 * What fading signals go through within one tick. Its events may have come in any order, so that
 * several faders may have stood at any of their values together, and a note that starts or ends there
 * may have heard all of it.
 */
export class PassingTick {
  readonly #moved = new Set<number>();
  #edges: Voice[] = [];

  /** Fading signals have been set. */
  pass(fading: readonly number[], changed: readonly number[]): void {
    for (const signal of changed) if (fading.includes(signal)) this.#moved.add(signal);
  }

  /** A voice starts or is let go on this tick. */
  borders(voice: Voice): void {
    this.#edges.push(voice);
  }

  /**
   * The tick is over.
   *
   * @param within what each fading signal may have gone through meanwhile, in whatever order; for
   *   a sound that one of them started, from there on
   * @param sounding is told what voices that still sound may have gone through
   * @param live is told the same of a voice that started or ended on the tick
   */
  end(
    within: (by: Sound | null) => readonly (readonly Choice[])[],
    sounding: (moments: readonly Moment[]) => void,
    live: (voice: Voice, moment: Moment) => void,
  ): void {
    if (this.#moved.size > 0 && (this.#moved.size > 1 || this.#edges.length > 0)) {
      const of = (by: Sound | null): readonly Moment[] =>
        combined(within(by)).map((one) => ({ ...one, doubt: one.doubt | order }));
      const moments = of(null);
      for (const voice of this.#edges) {
        for (const one of voice.sound.signal < 0 ? moments : of(voice.sound)) live(voice, one);
      }
      if (this.#moved.size > 1) sounding(moments);
    }
    this.#moved.clear();
    this.#edges = [];
  }
}
