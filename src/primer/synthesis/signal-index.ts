import type { Signal } from '../../instruments/program.ts';
import { contains } from '../../terms/range.ts';

const keyCount = 128;

/** Which signals of a program a message sets, found once: programs of outlines have hundreds. */
export class SignalIndex {
  readonly #byKind = new Map<Signal['kind'], number[]>();
  readonly #controllers = new Map<number, number[]>();
  /** By key. */
  readonly #switches: readonly (readonly number[])[];
  readonly #previous: readonly (readonly number[])[];

  constructor(signals: readonly Signal[]) {
    signals.forEach((signal, i) => {
      push(this.#byKind, signal.kind, i);
      if (signal.kind === 'controller') push(this.#controllers, signal.number, i);
    });
    const byKey = (matches: (signal: Signal, key: number) => boolean): readonly number[][] =>
      Array.from({ length: keyCount }, (_, key) =>
        signals.flatMap((signal, i) => (matches(signal, key) ? [i] : [])),
      );
    this.#switches = byKey((one, key) => one.kind === 'switch' && isAmong(one.keys, key));
    this.#previous = byKey(
      (one, key) =>
        one.kind === 'previous-key' && (one.keys === undefined || isAmong(one.keys, key)),
    );
  }

  of(kind: Signal['kind']): readonly number[] {
    return this.#byKind.get(kind) ?? none;
  }

  ofController(number: number): readonly number[] {
    return this.#controllers.get(number) ?? none;
  }

  /** Switches that a key presses. */
  pressedBy(key: number): readonly number[] {
    return this.#switches[key] ?? none;
  }

  /** Memories of the note before that take a note on a key in. */
  rememberingKey(key: number): readonly number[] {
    return this.#previous[key] ?? none;
  }
}

const none: readonly number[] = [];

const isAmong = (keys: readonly (readonly [number, number])[], key: number): boolean =>
  keys.some((range) => contains(range, key));

const push = <Key>(map: Map<Key, number[]>, key: Key, value: number): void => {
  const own = map.get(key);
  if (own === undefined) map.set(key, [value]);
  else own.push(value);
};
