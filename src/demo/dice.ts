/**
 * A repeatable stream of numbers. Only 32-bit whole-number steps are used, so one seed gives the same
 * demo on every machine and in every JavaScript engine.
 */
export class Dice {
  #state: number;

  /** @param seed any whole number; different seeds give unrelated streams */
  constructor(seed: number) {
    this.#state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) >>> 0 || 1;
    for (let turn = 0; turn < 8; turn++) this.next();
  }

  /** A number from 0 up to, not including, 1. */
  next(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x >>> 0;
    return this.#state / 0x1_0000_0000;
  }

  /** A whole number from `lo` to `hi`, both included. */
  whole(lo: number, hi: number): number {
    return lo + Math.floor(this.next() * (hi - lo + 1));
  }

  /** A number from -1 up to 1: white noise when called point by point. */
  signed(): number {
    return this.next() * 2 - 1;
  }

  /** One of `items`, which must not be empty. */
  pick<T>(items: readonly T[]): T {
    return items[this.whole(0, items.length - 1)]!;
  }
}

/** A seed from a name, so that every track and sample rolls its own dice. */
export const seedOf = (name: string): number => {
  let seed = 17;
  for (const letter of name) seed = (Math.imul(seed, 31) + letter.codePointAt(0)!) | 0;
  return seed;
};
