import { doubtSet } from '../terms/doubt.ts';
import type { Alternatives, AlternativesTable } from './alternatives.ts';

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

  constructor(table: AlternativesTable, initial: Alternatives) {
    this.#table = table;
    this.#now = initial;
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

  endTick(): void {
    if (this.#before === null) return;
    if (this.#set.length > 1) {
      const all = this.#set.map(({ next }) => next);
      this.#now = this.#table.join(this.#now, all, order);
    }
    this.#before = null;
    this.#set.length = 0;
  }
}
