import type { Program } from '../../../instruments/program.ts';
import type { Alternative } from '../../../playback/alternatives.ts';
import { fadingSignals } from '../../../playback/fading-signals.ts';
import type { CopyUsage, Moment, UsageClass } from '../../../playback/zone-usage.ts';
import type { SignalLimit } from './limit.ts';

/** The usage of a copy as it would be with a controller kept within a limit; made as it is asked for. */
export class LimitedUsage {
  readonly usage: CopyUsage;
  readonly #from: CopyUsage;
  readonly #limits: ReadonlyMap<number, SignalLimit>;
  /** The limit of each fading signal, in the order of a moment's ranges. */
  readonly #fading: readonly (SignalLimit | undefined)[];
  readonly #alternatives: (readonly Alternative[])[];
  readonly #states: (readonly number[])[];
  readonly #lives: (readonly Moment[])[];
  readonly #list = new Map<string, number>();
  readonly #seenStates = new Set<number>();
  readonly #seenLives = new Set<number>();

  /** @param limits by signal */
  constructor(usage: CopyUsage, program: Program, limits: ReadonlyMap<number, SignalLimit>) {
    this.#from = usage;
    this.#limits = limits;
    this.#fading = fadingSignals(program).map((signal) => limits.get(signal));
    this.#alternatives = [...usage.alternatives];
    this.#states = [...usage.states];
    this.#lives = [...usage.lives];
    this.usage = {
      ...usage,
      alternatives: this.#alternatives,
      states: this.#states,
      lives: this.#lives,
    };
  }

  /** The class as it would be in {@link usage}; null where nothing of it changes. */
  class(one: UsageClass): UsageClass | null {
    const { state, life, event, signal, key } = one;
    const sent = event === 'change' ? (this.#limits.get(signal)?.sent(key) ?? key) : key;
    this.#limitState(state);
    if (life >= 0) this.#limitLife(life);
    const isSame =
      sent === key &&
      this.#states[state] === this.#from.states[state] &&
      this.#lives[life] === this.#from.lives[life];
    return isSame ? null : { ...one, key: sent };
  }

  #limitState(state: number): void {
    if (this.#seenStates.has(state)) return;
    this.#seenStates.add(state);
    const row = this.#from.states[state]!;
    const limited = row.map((index, signal) => {
      const limit = this.#limits.get(signal);
      return limit === undefined ? index : this.#limitedList(index, signal, limit);
    });
    if (limited.some((index, i) => index !== row[i])) this.#states[state] = limited;
  }

  #limitedList(index: number, signal: number, limit: SignalLimit): number {
    const at = `${String(index)} ${String(signal)}`;
    let found = this.#list.get(at);
    if (found === undefined) {
      const list = this.#from.alternatives[index]!;
      const isBeyond = list.some(({ value }) => typeof value === 'number' && limit.isBeyond(value));
      found = isBeyond
        ? this.#alternatives.push(
            list.flatMap((one): readonly Alternative[] => {
              const { value, doubt } = one;
              return typeof value === 'number' ? limit.values({ value, doubt }) : [one];
            }),
          ) - 1
        : index;
      this.#list.set(at, found);
    }
    return found;
  }

  #limitLife(life: number): void {
    if (this.#seenLives.has(life)) return;
    this.#seenLives.add(life);
    const moments = this.#from.lives[life]!;
    const isBeyond = moments.some(({ ranges }) =>
      this.#fading.some(
        (limit, i) =>
          limit !== undefined && (limit.isBeyond(ranges[i]![0]) || limit.isBeyond(ranges[i]![1])),
      ),
    );
    if (!isBeyond) return;
    this.#lives[life] = this.#fading.reduce(
      (all, limit, i) => (limit === undefined ? all : all.flatMap((one) => limited(one, i, limit))),
      moments,
    );
  }
}

/** A moment with one of its signals kept within a limit. */
const limited = (moment: Moment, signal: number, limit: SignalLimit): readonly Moment[] =>
  limit
    .ranges({ range: moment.ranges[signal]!, doubt: moment.doubt })
    .map(({ range, doubt }) => ({ ...moment, ranges: moment.ranges.with(signal, range), doubt }));
