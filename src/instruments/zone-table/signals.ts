import type { ControllerRange } from '../../notation/controllers.ts';
import type { SwitchTest } from '../../notation/switch.ts';
import { plain } from '../../terms/doubt.ts';
import type { Range } from '../../terms/range.ts';
import type { Condition, Fade, Signal } from '../program.ts';
import { switchRange } from './switch-range.ts';

/**
 * The signals of a program, each made when something first asks for it. All keyswitches of a table are
 * one signal. A controller that switches and one that fades are two, whatever their numbers.
 */
export class Signals {
  readonly all: Signal[] = [];
  readonly #keys: readonly Range[];
  readonly #indices = new Map<string, number>();

  /** @param switches every switch of the table */
  constructor(switches: readonly SwitchTest[]) {
    this.#keys = [...new Set(switches.flatMap((one) => (one.kind === 'key' ? [one.key] : [])))]
      .sort((a, b) => a - b)
      .map((key) => [key, key]);
  }

  condition(test: SwitchTest): Condition {
    const [lo, hi] = switchRange(test);
    return { signal: this.#of(this.#switchSignal(test)), tests: [{ lo, hi, doubt: plain }] };
  }

  fade({ number, range: [lo, hi] }: ControllerRange): Fade {
    return { signal: this.#of({ kind: 'controller', number, initial: null }), lo, hi };
  }

  #switchSignal(test: SwitchTest): Signal {
    switch (test.kind) {
      case 'key':
        return { kind: 'switch', keys: this.#keys, initial: null };
      case 'controller':
        return { kind: 'controller', number: test.number, initial: null, selects: true };
      case 'program':
        return { kind: 'program' };
      case 'channel':
        return { kind: 'channel', selects: true };
    }
  }

  #of(signal: Signal): number {
    const text = JSON.stringify(signal);
    let index = this.#indices.get(text);
    if (index === undefined) {
      index = this.all.push(signal) - 1;
      this.#indices.set(text, index);
    }
    return index;
  }
}
