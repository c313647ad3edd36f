import type { Condition, Gate, Hold, Signal } from '../../program.ts';
import type { SfzStructure } from '../structure/regions.ts';

/** Keeps each of equal values once, and numbers them. */
class Numbered<T> {
  readonly all: T[] = [];
  readonly #indices = new Map<string, number>();

  of(value: T): number {
    const text = JSON.stringify(value);
    let index = this.#indices.get(text);
    if (index === undefined) {
      index = this.all.push(value) - 1;
      this.#indices.set(text, index);
    }
    return index;
  }
}

/** What a program is put together from, each made when something first asks for it. */
export class Parts {
  readonly #signals = new Numbered<Signal>();
  readonly #gates = new Numbered<Gate>();
  readonly #holds = new Numbered<Hold>();
  /** Values of controllers before any message, where the instrument says. */
  readonly initial: ReadonlyMap<number, number>;
  /** Where that lies between two steps, the one that other engines take. */
  readonly otherInitial: ReadonlyMap<number, number>;

  constructor({ initial, otherInitial }: Pick<SfzStructure, 'initial' | 'otherInitial'>) {
    this.initial = initial;
    this.otherInitial = otherInitial;
  }

  get signals(): readonly Signal[] {
    return this.#signals.all;
  }

  get gates(): readonly Gate[] {
    return this.#gates.all;
  }

  get holds(): readonly Hold[] {
    return this.#holds.all;
  }

  signal(signal: Signal): number {
    return this.#signals.of(signal);
  }

  controller(number: number): number {
    const other = this.otherInitial.get(number);
    return this.signal({
      kind: 'controller',
      number,
      initial: this.initial.get(number) ?? null,
      ...(other === undefined ? {} : { otherInitial: other }),
    });
  }

  gate(conditions: readonly Condition[]): number {
    return this.#gates.of(conditions);
  }

  hold(hold: Hold): number {
    return this.#holds.of(hold);
  }
}
