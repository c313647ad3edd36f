import type { Alternatives } from './alternatives.ts';

/** What all signals may be at once, each combination kept once. */
export class StateTable {
  readonly all: (readonly number[])[] = [];
  readonly #byText = new Map<string, number>();

  indexOf(signals: readonly Alternatives[]): number {
    const ids = signals.map(({ id }) => id);
    const text = ids.join(' ');
    let index = this.#byText.get(text);
    if (index === undefined) {
      index = this.all.length;
      this.all.push(ids);
      this.#byText.set(text, index);
    }
    return index;
  }
}
