import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import type { Alternative, Alternatives, AlternativesTable } from './alternatives.ts';
import { numbersOf, type Choice } from './first-moments.ts';
import { History } from './history.ts';

const order = doubtSet('order');
const engine = doubtSet('engine');

const nobody = -1;

/**
 * One signal through time. Events on one tick may have happened in any order (doubt `order`): what
 * the signal was before the tick and every value set within it stay possible for the whole tick, and
 * of several values set on one tick any may have come last.
 */
export class Cell {
  readonly #table: AlternativesTable;
  #now: Alternatives;
  /** What it was before it was last set; null before that. */
  #previous: Alternatives | null = null;
  /** The same when the current tick began. */
  #beforePrevious: Alternatives | null = null;
  #mayBecome: Alternatives | null = null;
  /** What it was before the last message. */
  #from: Alternatives;
  #before: Alternatives | null = null;
  readonly #set: { next: Alternatives; readonly by: number }[] = [];
  readonly #history: History | null;

  /** @param slack seconds for which it remembers what it was; 0: not at all */
  constructor(table: AlternativesTable, initial: Alternatives, slack = 0) {
    this.#table = table;
    this.#now = initial;
    this.#from = initial;
    this.#history = slack > 0 ? new History(initial, slack) : null;
  }

  /** The alternatives at this place in file order, the plain one as the file has it. */
  get now(): Alternatives {
    return this.#now;
  }

  /** What it was before it became what it is: where a smoothing player comes from; null: always so. */
  get previous(): Alternatives | null {
    return this.#previous;
  }

  /** What it was before the last message, which may have left it as it was. */
  get from(): Alternatives {
    return this.#from;
  }

  /** What the last message may have set it to where it plainly left it alone; else null. */
  get mayBecome(): Alternatives | null {
    return this.#mayBecome;
  }

  /** True when the current tick has set the signal. */
  get touched(): boolean {
    return this.#before !== null;
  }

  /** @param by the event that sets it, where an event must not see what it sets itself */
  set(next: Alternatives, by = nobody): void {
    if (this.#before === null) {
      this.#before = this.#now;
      this.#beforePrevious = this.#previous;
    }
    this.#previous = this.#now;
    this.#from = this.#now;
    this.#mayBecome = null;
    this.#set.push({ next, by });
    this.#now = next;
  }

  /**
   * A message after which it may be what it was, or something else.
   *
   * @param told what the message itself may have set: all that another order of the tick adds
   * @param keeps it plainly stays what it was
   */
  reset(next: Alternatives, told: Alternatives, keeps: boolean): void {
    const previous = this.#previous;
    this.set(next);
    this.#set.at(-1)!.next = told;
    this.#mayBecome = keeps ? told : null;
    if (previous === null) {
      if (keeps) this.#previous = this.#table.of(under(this.#from, engine));
    } else {
      const [plainly, otherwise] = keeps ? [previous, this.#from] : [this.#from, previous];
      this.#previous = this.#table.join(plainly, [otherwise], engine);
    }
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

  /** What it may have been before, for an event that found `previous`, once its tick is over. */
  seenPrevious(previous: Alternatives | null): Alternatives | null {
    if (this.#before === null) return previous;
    // Should the event have come before all that sets it, what was before the tick may still move.
    return this.#mayCome(previous, this.#beforePrevious === null ? [] : [this.#beforePrevious]);
  }

  #mayCome(previous: Alternatives | null, more: readonly Alternatives[]): Alternatives | null {
    // A message that plainly leaves the signal alone moves it only for some engines.
    const moves = this.#set.some(({ next }) => next.list[0]!.doubt === 0);
    const others = [...more, this.#before!, ...this.#set.map(({ next }) => next)];
    const doubt = moves ? order : order | engine;
    if (previous !== null) return this.#table.join(previous, others, doubt);
    return this.#table.of(others.flatMap((one) => under(one, doubt)));
  }

  /**
   * What the current tick takes it through, whatever the order of its events; known once it is over.
   *
   * @param from where it is known to begin; else it is what the tick found
   */
  withinTick(from: number | null): readonly Choice[] {
    const found =
      from === null ? numbersOf(this.#before ?? this.#now) : [{ value: from, doubt: plain }];
    const set = this.#set.flatMap(({ next }) => numbersOf(next));
    const doubts = new Set([0, ...set.map(({ doubt }) => doubt)]);
    return found.flatMap((start) =>
      [...doubts].map((doubt): Choice => {
        const some = set.filter((one) => one.doubt === 0 || one.doubt === doubt);
        const values = [start.value, ...some.map(({ value }) => value)];
        return {
          range: [Math.min(...values), Math.max(...values)],
          doubt: start.doubt | doubt,
        };
      }),
    );
  }

  /** @param seconds when the tick was; only asked for where it remembers */
  endTick(seconds = 0): void {
    if (this.#before === null) return;
    this.#previous = this.#mayCome(this.#previous, []);
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

const under = ({ list }: Alternatives, doubt: DoubtSet): readonly Alternative[] =>
  list.map((one) => ({ ...one, doubt: one.doubt | doubt }));
