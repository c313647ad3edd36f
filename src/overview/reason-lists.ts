import type { Reason } from '../keep/plan.ts';

/** Lists of reasons by number, to which lists of two cells together are added. */
export class ReasonLists {
  readonly all: (readonly Reason[])[];
  readonly #known = new Map<number, number>();

  constructor(lists: readonly (readonly Reason[])[]) {
    this.all = [...lists];
  }

  /** The number of what either list has; -1 is the empty one. */
  both(a: number, b: number): number {
    if (a === b || b < 0) return a;
    if (a < 0) return b;
    const pair = Math.min(a, b) * 0x10000 + Math.max(a, b);
    const known = this.#known.get(pair);
    if (known !== undefined) return known;
    const list = [...new Set([...(this.all[a] ?? []), ...(this.all[b] ?? [])])].sort();
    const text = list.join();
    const found = this.all.findIndex((one) => [...one].sort().join() === text);
    const number = found >= 0 ? found : this.all.push(list) - 1;
    this.#known.set(pair, number);
    return number;
  }
}
