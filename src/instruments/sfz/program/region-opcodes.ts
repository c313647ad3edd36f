import type { Opcode } from '../text/document.ts';
import { keyOf, leadingNumber, onOff } from '../text/numbers.ts';

/**
 * The opcodes of one region by name. Of several the last that can be read counts: one without a
 * readable value is as if it were not there.
 */
export class RegionOpcodes {
  /** As they apply. */
  readonly inOrder: readonly Opcode[];
  readonly #byName = new Map<string, string[]>();

  constructor(opcodes: readonly Opcode[]) {
    this.inOrder = opcodes;
    for (const { name, value } of opcodes) {
      const values = this.#byName.get(name);
      if (values === undefined) this.#byName.set(name, [value]);
      else values.push(value);
    }
  }

  get names(): Iterable<string> {
    return this.#byName.keys();
  }

  has(name: string): boolean {
    return this.#byName.has(name);
  }

  text(name: string): string | null {
    return this.#byName.get(name)?.at(-1)?.trim().toLowerCase() ?? null;
  }

  number(name: string): number | null {
    return this.#last(name, leadingNumber);
  }

  /** Rounded towards zero. */
  whole(name: string): number | null {
    const number = this.number(name);
    return number === null ? null : Math.trunc(number);
  }

  key(name: string): number | null {
    return this.#last(name, keyOf);
  }

  flag(name: string): boolean | null {
    return this.#last(name, onOff);
  }

  /** The numbers N of all opcodes whose names are one of `stems` and a number, ascending. */
  numbered(...stems: readonly string[]): readonly number[] {
    const numbers = new Set<number>();
    for (const name of this.#byName.keys()) {
      for (const stem of stems) {
        const rest = name.startsWith(stem) ? name.slice(stem.length) : '';
        if (digits.test(rest)) numbers.add(Number(rest));
      }
    }
    return [...numbers].sort((a, b) => a - b);
  }

  #last<T>(name: string, read: (text: string) => T | null): T | null {
    const values = this.#byName.get(name);
    if (values === undefined) return null;
    for (let i = values.length - 1; i >= 0; i--) {
      const value = read(values[i]!);
      if (value !== null) return value;
    }
    return null;
  }
}

const digits = /^\d{1,4}$/u;
