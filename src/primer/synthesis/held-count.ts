import type { Signal } from '../../instruments/program.ts';
import { contains } from '../../terms/range.ts';
import type { CopyState } from './copy-state.ts';

type Held = Extract<Signal, { kind: 'held' }>;

/** Seconds on the safe side of what is rounded to ticks. */
export const margin = 0.03;

/** Keys that count as held for the signals of a program, at one event. */
export class HeldCount {
  readonly #down = new Set<number>();
  /** Keys that were let go, and how many seconds ago. */
  readonly #lifted: readonly (readonly [key: number, ago: number])[];
  readonly #key: number;

  /**
   * @param isSame whether a channel shares its state with that of the event
   * @param key of the event
   */
  constructor(
    { sounding, lifted, seconds }: CopyState,
    isSame: (channel: number) => boolean,
    key: number,
  ) {
    for (const one of sounding) {
      if (one.pedalled === null && isSame(one.channel)) this.#down.add(one.key);
    }
    this.#lifted = lifted
      .filter(({ channel }) => isSame(channel))
      .map((one) => [one.key, seconds - one.at]);
    this.#key = key;
  }

  of({ keys, own, within }: Held): number {
    const counts = (key: number): boolean => keys.some((range) => contains(range, key));
    let count = own && counts(this.#key) ? 1 : 0;
    for (const key of this.#down) if (key !== this.#key && counts(key)) count++;
    if (within === undefined) return count;
    this.#lifted.forEach(([key, ago], i) => {
      if (key === this.#key || ago > within + margin || this.#down.has(key)) return;
      const isAgain = this.#lifted.findIndex((one) => one[0] === key && one[1] <= within + margin);
      if (isAgain === i && counts(key)) count++;
    });
    return count;
  }
}
