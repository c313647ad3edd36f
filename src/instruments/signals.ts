import type { ControllerRange } from '../notation/controllers.ts';
import type { SwitchTest } from '../notation/switch.ts';
import { doubtSet, plain } from '../terms/doubt.ts';
import { toRanges, type Range } from '../terms/range.ts';
import type { Condition, Fade, Signal, Test } from './program.ts';
import { switchRange } from './switch-range.ts';

const noSwitch = doubtSet('no-switch');

/** As the engine counts them. */
const everyChannel = Array.from({ length: 16 }, (_, i) => i + 1);

/**
 * The signals of a program, each made when something first asks for it. All keyswitches of a
 * definition are one signal. A controller that switches and one that fades are two, whatever their numbers.
 */
export class Signals {
  readonly all: Signal[] = [];
  readonly #keys: readonly Range[];
  /**
   * Channels that choose nothing. Many exports put every part on channel 1 (common practice), so a
   * note there may have been meant for any articulation: `no-switch`.
   */
  readonly #otherChannels: readonly Test[];
  readonly #indices = new Map<string, number>();

  /** @param switches every switch of the definition */
  constructor(switches: readonly SwitchTest[]) {
    const channels = new Set(
      switches.flatMap((one) => (one.kind === 'channel' ? [switchRange(one)[0]] : [])),
    );
    this.#otherChannels = toRanges(everyChannel.filter((one) => !channels.has(one))).map(
      ([from, to]) => ({ lo: from, hi: to, doubt: noSwitch }),
    );
    this.#keys = [...new Set(switches.flatMap((one) => (one.kind === 'key' ? [one.key] : [])))]
      .sort((a, b) => a - b)
      .map((key) => [key, key]);
  }

  /** The number of a signal: equal ones have one. */
  of(signal: Signal): number {
    const text = JSON.stringify(signal);
    let index = this.#indices.get(text);
    if (index === undefined) {
      index = this.all.push(signal) - 1;
      this.#indices.set(text, index);
    }
    return index;
  }

  condition(test: SwitchTest): Condition {
    const [lo, hi] = switchRange(test);
    const elsewhere = test.kind === 'channel' ? this.#otherChannels : [];
    return {
      signal: this.of(this.#switchSignal(test)),
      tests: [{ lo, hi, doubt: plain }, ...elsewhere],
    };
  }

  fade({ number, range: [lo, hi] }: ControllerRange): Fade {
    return { signal: this.of({ kind: 'controller', number, initial: null }), lo, hi };
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
}
