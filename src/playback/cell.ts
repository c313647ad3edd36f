import { doubtSet } from '../terms/doubt.ts';
import type { Alternatives, AlternativesTable } from './alternatives.ts';
import { History } from './history.ts';

const order = doubtSet('order');

const nobody = -1;

/**
 * One signal through time. Events on one tick may have happened in any order (doubt `order`): what
 * the signal was before the tick and every value set within it stay possible for the whole tick, and
 * of several values set on one tick any may have come last.
 */
export class Cell {
  readonly #table: AlternativesTable;
  #now: Alternatives;
  #before: Alternatives | null = null;
  readonly #set: { readonly next: Alternatives; readonly by: number }[] = [];
  readonly #history: History | null;

  /** @param slack seconds for which it remembers what it was; 0: not at all */
  constructor(table: AlternativesTable, initial: Alternatives, slack = 0) {
    this.#table = table;
    this.#now = initial;
    this.#history = slack > 0 ? new History(initial, slack) : null;
  }

  /** The alternatives at this place in file order, the plain one as the file has it. */
  get now(): Alternatives {
    return this.#now;
  }

  /** True when the current tick has set the signal. */
  get touched(): boolean {
    return this.#before !== null;
  }

  /** @param by the event that sets it, where an event must not see what it sets itself */
  set(next: Alternatives, by = nobody): void {
    this.#before ??= this.#now;
    this.#set.push({ next, by });
    this.#now = next;
  }

  /** Adds a value that another order of the current tick's events would have set. */
  mayHaveSet(next: Alternatives): void {
    this.#set.unshift({ next, by: nobody });
  }

  /** What an event that saw `now` may have seen, known once its tick is over. */
  seen(now: Alternatives, event = nobody): Alternatives {
    if (this.#before === null) return now;
    const others = this.#set.filter(({ by }) => by === nobody || by !== event);
    return this.#table.join(now, [this.#before, ...others.map(({ next }) => next)], order);
  }

  /** @param seconds when the tick was; only asked for where it remembers */
  endTick(seconds = 0): void {
    if (this.#before === null) return;
    for (const { next } of this.#set) this.#history?.add(seconds, next);
    if (this.#set.length > 1) {
      const all = this.#set.map(({ next }) => next);
      this.#now = this.#table.join(this.#now, all, order);
    }
    this.#history?.add(seconds, this.#now);
    this.#before = null;
    this.#set.length = 0;
  }

  /** What it was at some time between two moments, in seconds; the ticks up to `to` must be over. */
  during(from: number, to: number): readonly Alternatives[] {
    return this.#history?.during(from, to) ?? [];
  }
}
