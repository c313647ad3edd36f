import type { Place } from '../../terms/finding.ts';
import type { Faults } from './faults.ts';
import { shortened } from '../shortened.ts';

/** Adds a fault for each thing of a kind that comes a second time. */
export class Once {
  readonly #faults: Faults;
  readonly #kind: string;
  readonly #lines = new Map<string, number>();

  constructor(faults: Faults, kind: 'cue' | 'heading' | 'name' | 'pin' | 'reading') {
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
    this.#faults.add(at, 'template-repeated', () => ({ kind, text: shortened(text), line }));
  }
}
