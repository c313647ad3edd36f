import type { Alternatives } from './alternatives.ts';

interface Entry {
  readonly seconds: number;
  readonly value: Alternatives;
}

/** Ticks become seconds by division: equal moments may differ in the last bits. */
const tolerance = 1e-9;

/** What a signal was a short while ago: for switches and notes that may have been moved (`slack`). */
export class History {
  readonly #slack: number;
  /** In force before the first entry. */
  #before: Alternatives;
  #entries: Entry[] = [];

  constructor(initial: Alternatives, slack: number) {
    this.#before = initial;
    this.#slack = slack;
  }

  /** From `seconds` on the signal is `value`; moments never descend. */
  add(seconds: number, value: Alternatives): void {
    this.#forget(seconds);
    this.#entries.push({ seconds, value });
  }

  /** Everything it was from just before `from` up to and with `to`. */
  during(from: number, to: number): readonly Alternatives[] {
    const past = this.#entries.filter(({ seconds }) => seconds < from - tolerance);
    const within = this.#entries.slice(past.length).filter((one) => one.seconds <= to + tolerance);
    return [past.at(-1)?.value ?? this.#before, ...within.map(({ value }) => value)];
  }

  /** A note that waits is at most the slack old, and looks back as far again. */
  #forget(now: number): void {
    const old = this.#entries.findLastIndex(
      ({ seconds }) => seconds < now - 2 * this.#slack - 1e-6,
    );
    if (old < 0) return;
    this.#before = this.#entries[old]!.value;
    this.#entries = this.#entries.slice(old + 1);
  }
}
