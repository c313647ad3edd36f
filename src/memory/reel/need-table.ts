import type { ZoneMask } from '../zone-mask.ts';
import { joinNeeds, type Need } from './need.ts';

/** The needs of one instrument, each kept once under a number, and what any two come to. */
export class NeedTable {
  readonly #needs: Need[] = [];
  readonly #numbers = new Map<string, number>();
  readonly #joins = new Map<string, number>();

  need(number: number): Need {
    return this.#needs[number]!;
  }

  numberOf(need: Need): number {
    const key = keyOf(need);
    let number = this.#numbers.get(key);
    if (number === undefined) {
      number = this.#needs.length;
      this.#needs.push(need);
      this.#numbers.set(key, number);
    }
    return number;
  }

  join(a: number, b: number): number {
    if (a === b) return a;
    const key = a < b ? `${String(a)} ${String(b)}` : `${String(b)} ${String(a)}`;
    let joined = this.#joins.get(key);
    if (joined === undefined) {
      joined = this.numberOf(joinNeeds(this.need(a), this.need(b)));
      this.#joins.set(key, joined);
    }
    return joined;
  }
}

const keyOf = (need: Need): string =>
  need.kind === 'shared'
    ? JSON.stringify([[...need.copies].sort(), textOf(need.zones)])
    : JSON.stringify(
        [...need.copies]
          .map(([name, zones]) => [name, textOf(zones)] as const)
          .sort(([a], [b]) => (a < b ? -1 : 1)),
      );

/** Eight zones to a character: masks are long, and there are many. */
const textOf = (mask: ZoneMask): string => {
  let text = '';
  for (let z = 0; z < mask.length; z += 8) {
    let bits = 0;
    for (let b = 0; b < 8; b++) bits = (bits << 1) | (mask[z + b] ?? 0);
    text += String.fromCharCode(0x100 + bits);
  }
  return text;
};
