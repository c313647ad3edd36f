import type { Place } from '../../terms/finding.ts';
import type { Faults } from './faults.ts';
import { shortened } from './shortened.ts';

/** Adds a fault for each thing of a kind that comes a second time. */
export class Once {
  readonly #faults: Faults;
  readonly #kind: string;
  readonly #lines = new Map<string, number>();

  /** @param kind a word of its own, which the message knows */
  constructor(faults: Faults, kind: string) {
    this.#faults = faults;
    this.#kind = kind;
  }

  /**
   * @param key equal for what is the same
   * @param text what a person knows it by
   */
  see(key: string, text: string, at: Place): void {
    const line = this.#lines.get(key);
    if (line === undefined) {
      this.#lines.set(key, at.line ?? 0);
      return;
    }
    const kind = this.#kind;
    this.#faults.add(at, 'yaml-repeated', () => ({ kind, text: shortened(text), line }));
  }
}
