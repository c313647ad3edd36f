import { doubtSet, plain } from '../../terms/doubt.ts';
import { contains, intersect, toRanges, type Range } from '../../terms/range.ts';
import type { Condition, Gate, Test } from '../program.ts';
import { Signals } from '../signals.ts';
import type { OutlineArticulation } from './outline.ts';

const stretch = doubtSet('stretch');

/** More than there are keys on all channels. */
const anyNumber = 4096;

/** Every key but the switches that no articulation is said to play. */
const playingKeys = (articulations: readonly OutlineArticulation[]): readonly Range[] => {
  const played = articulations.flatMap(({ keys }) => keys ?? []);
  const silent = new Set(
    articulations.flatMap(({ choice }) =>
      choice.kind === 'switch' &&
      choice.test.kind === 'key' &&
      !played.some((range) => contains(range, (choice.test as { readonly key: number }).key))
        ? [choice.test.key]
        : [],
    ),
  );
  return toRanges(Array.from({ length: 128 }, (_, key) => key).filter((key) => !silent.has(key)));
};

/** The signals and gates of an outline's program; equal gates are one. */
export class OutlineGates {
  readonly all: Gate[] = [];
  readonly signals: Signals;
  readonly #numbers = new Map<string, number>();
  readonly #named = new Map<OutlineArticulation, Map<string, number>>();
  /** Keys that play: what only switches is no note before, and is not held. */
  readonly #playing: readonly Range[];
  /** Nothing has to choose where there is one articulation. */
  readonly #isAlone: boolean;

  constructor(articulations: readonly OutlineArticulation[]) {
    this.#isAlone = articulations.length < 2;
    this.#playing = playingKeys(articulations);
    this.signals = new Signals(
      articulations.flatMap(({ choice }) => (choice.kind === 'switch' ? [choice.test] : [])),
    );
  }

  /** The number of the gate of all these conditions. */
  of(conditions: readonly Condition[]): number {
    const text = JSON.stringify(conditions);
    let number = this.#numbers.get(text);
    if (number === undefined) {
      number = this.all.push(conditions) - 1;
      this.#numbers.set(text, number);
    }
    return number;
  }

  /** The same for what is asked for again and again: made once for a name in an articulation. */
  once(own: OutlineArticulation, name: string, conditions: () => readonly Condition[]): number {
    let named = this.#named.get(own);
    if (named === undefined) this.#named.set(own, (named = new Map<string, number>()));
    let number = named.get(name);
    if (number === undefined) named.set(name, (number = this.of(conditions())));
    return number;
  }

  /** The switch has chosen the articulation; none where nothing has to. */
  choice({ choice }: OutlineArticulation): readonly Condition[] {
    return choice.kind === 'switch' && !this.#isAlone ? [this.signals.condition(choice.test)] : [];
  }

  /**
   * `when`, without the velocity.
   *
   * @param isOwnDown the event's own key is down and counts as held
   */
  when({ when }: OutlineArticulation, isOwnDown: boolean): readonly Condition[] {
    const { controllers, pressure, held } = when;
    const conditions = controllers.map(({ number, range }) =>
      this.#condition(this.signals.of({ kind: 'controller', number, initial: null }), range),
    );
    if (pressure !== null) {
      conditions.push(this.#condition(this.signals.of({ kind: 'pressure' }), pressure));
    }
    if (held !== null) {
      // Its own key is left out and counted here: a held signal with its own key is a switch.
      const signal = this.signals.of({ kind: 'held', keys: this.#playing, own: false });
      const one = isOwnDown ? 1 : 0;
      conditions.push(this.#condition(signal, [Math.max(0, held[0] - one), held[1] - one]));
    }
    return conditions;
  }

  /** What of some keys plays: a key that only switches lets nothing go. */
  played(keys: readonly Range[]): readonly Range[] {
    return keys.flatMap((range) =>
      this.#playing.map((one) => intersect(range, one)).filter((some) => some !== null),
    );
  }

  /** The key is down, or was let go at most so many seconds ago. */
  isHeld(key: number, within: number | null): Condition {
    return this.#condition(this.#held([[key, key]], within), [1, anyNumber]);
  }

  /** The note-on before this one was the key's; any other one under `stretch`. */
  wasPrevious(key: number): Condition {
    const [only, any] = [
      { lo: key, hi: key, doubt: plain },
      { lo: -1, hi: 127, doubt: stretch },
    ];
    return { signal: this.#previous(), tests: [only, any] };
  }

  /** Of a window that is not known: the key is down and the note-on before this one was its. */
  isHeldPrevious(key: number): readonly Condition[] {
    return [this.isHeld(key, null), this.#condition(this.#previous(), [key, key])];
  }

  /** Of a window that is not known: the key is down, or was the note-on before this one. */
  isHeldOrPrevious(key: number): Condition {
    const held = this.isHeld(key, null);
    const signal = this.#previous();
    return { ...held, tests: [...held.tests, { lo: key, hi: key, doubt: plain, signal }] };
  }

  /**
   * Another key is held.
   *
   * @param within the window; null where it is not known: any note before will do, under `stretch`
   */
  isAnyHeld(within: number | null): Condition {
    const held = this.#condition(this.#held(this.#playing, within), [1, anyNumber]);
    if (within !== null) return held;
    const signal = this.#previous();
    const any: Test = { lo: 0, hi: 127, doubt: stretch, signal };
    return { ...held, tests: [...held.tests, any] };
  }

  #previous(): number {
    return this.signals.of({ kind: 'previous-key', keys: this.#playing });
  }

  #held(keys: readonly Range[], within: number | null): number {
    const signal = { kind: 'held', keys, own: false } as const;
    return this.signals.of(within === null ? signal : { ...signal, within });
  }

  #condition(signal: number, [lo, hi]: Range): Condition {
    return { signal, tests: [{ lo, hi, doubt: plain }] };
  }
}
