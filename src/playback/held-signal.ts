import type { Signal } from '../instruments/program.ts';
import { doubtSet } from '../terms/doubt.ts';
import type { Alternatives, AlternativesTable } from './alternatives.ts';
import type { Bands } from './bands.ts';
import type { HeldKey } from './held-keys.ts';
import { identity, type KeyLog } from './key-log.ts';

const order = doubtSet('order');

/** Beyond this many key events on one tick, every count up to the largest is taken as possible. */
const replayLimit = 64;

/** How many keys of a set are held: what `first` and `legato` ask, and keys that switch while held. */
export class HeldSignal {
  /** By key: 1 where it counts. */
  readonly #counted = new Uint8Array(128);
  readonly #keys: readonly number[];
  readonly #own: boolean;
  /** Seconds for which a key counts after it was let go; null: it does not. */
  readonly #within: number | null;
  readonly #bands: Bands;
  readonly #table: AlternativesTable;
  readonly #log: KeyLog;
  /** What a certain count is, by count; made when first asked for. */
  readonly #single: (Alternatives | undefined)[] = [];

  /** @param signal its keys, whether the event's own key counts, and for how long one that is up does */
  constructor(
    { keys, own, within }: Extract<Signal, { kind: 'held' }>,
    bands: Bands,
    table: AlternativesTable,
    log: KeyLog,
  ) {
    for (const [lo, hi] of keys) this.#counted.fill(1, Math.max(0, lo), Math.max(0, hi + 1));
    this.#keys = Array.from(this.#counted.keys()).filter((key) => this.#counted[key] === 1);
    this.#own = own;
    this.#within = within ?? null;
    this.#bands = bands;
    this.#table = table;
    this.#log = log;
  }

  count(held: readonly HeldKey[], own: HeldKey): number {
    let count = 0;
    for (const one of held) if (this.#counts(one, own)) count++;
    if (this.#within === null) return count;
    for (const one of this.#log.recent(this.#within)) if (this.#counts(one, own)) count++;
    return count;
  }

  /** `plain` keys in file order; other orders of the tick's events may have found more or fewer. */
  seen(plain: number, own: HeldKey): Alternatives {
    if (!this.#log.touches(this.#keys)) return this.#certain(plain);
    const others = [...this.#others(own)].map((n) => ({
      value: this.#bands.lowest(n),
      doubt: order,
    }));
    return this.#table.of([{ value: this.#bands.lowest(plain), doubt: 0 }, ...others]);
  }

  #others(own: HeldKey): ReadonlySet<number> {
    const { before, events } = this.#log;
    const counts = new Set<number>();
    const lately = this.#within === null ? [] : this.#log.recentBefore(this.#within);
    if (events.length > replayLimit) {
      const most = before.length + lately.length + events.length;
      for (let n = 0; n <= most; n++) counts.add(n);
      return counts;
    }
    const held = new Set(
      [...before, ...lately].filter((one) => this.#counts(one, own)).map(identity),
    );
    counts.add(held.size);
    for (const event of events) {
      if (!this.#counts(event, own)) continue;
      if (event.down) held.add(identity(event));
      // What has only just been let go still counts where there is a window at all.
      else if (this.#within === null) held.delete(identity(event));
      counts.add(held.size);
    }
    return counts;
  }

  #certain(count: number): Alternatives {
    return (this.#single[count] ??= this.#table.single(this.#bands.lowest(count)));
  }

  #counts(one: Pick<HeldKey, 'channel' | 'key'>, own: Pick<HeldKey, 'channel' | 'key'>): boolean {
    if (this.#counted[one.key] !== 1) return false;
    return this.#own || one.key !== own.key || one.channel !== own.channel;
  }
}
