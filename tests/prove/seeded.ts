/** Numbers that look random and are the same in every run with the same seed. */
export class Seeded {
  #state: number;

  constructor(seed: number) {
    // A state of zero would stay zero for ever.
    this.#state = Math.imul(seed + 1, 0x9e3779b1) | 1;
  }

  /** A whole number of 32 bits, signed: xorshift with the shifts 13, 17, 5 (Marsaglia, 2003). */
  next(): number {
    let state = this.#state;
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    this.#state = state;
    return state;
  }

  /** A whole number from 0 up to, not with, `end`. */
  below(end: number): number {
    return (this.next() >>> 0) % end;
  }

  /** `count` different members in an order of their own; all of them where there are fewer. */
  choose<T>(members: readonly T[], count: number): T[] {
    const left = [...members];
    const chosen: T[] = [];
    while (chosen.length < count && left.length > 0) {
      chosen.push(...left.splice(this.below(left.length), 1));
    }
    return chosen;
  }
}

/** The seed of this run; another one takes another share of the proofs. */
export const proveSeed = Number(process.env['KEEPSET_PROVE_SEED'] ?? '1');

/** Whether only a seeded share of the proofs is asked for. */
export const onlyPart = process.env['KEEPSET_PROVE'] === 'part';
