import { doubtSet } from '../terms/doubt.ts';
import { contains, type Range } from '../terms/range.ts';
import type { Alternative } from './alternatives.ts';
import type { Bands } from './bands.ts';
import type { HeldKey } from './held-keys.ts';

const order = doubtSet('order');

/** Beyond this many key events on one tick, every count up to the largest is taken as possible. */
const replayLimit = 64;

interface KeyEvent {
  readonly down: boolean;
  readonly channel: number;
  readonly key: number;
}

/** How many keys of a set are held: what `first` and `legato` ask, and keys that switch while held. */
export class HeldSignal {
  readonly #keys: readonly Range[];
  readonly #own: boolean;
  readonly #bands: Bands;
  #before: readonly HeldKey[] = [];
  #log: KeyEvent[] = [];

  /** @param signal its keys, and whether the event's own key counts */
  constructor(
    { keys, own }: { readonly keys: readonly Range[]; readonly own: boolean },
    bands: Bands,
  ) {
    this.#keys = keys;
    this.#own = own;
    this.#bands = bands;
  }

  /** Notes a key event of the current tick; `held` are the keys before it. */
  note(event: KeyEvent, held: readonly HeldKey[]): void {
    if (this.#log.length === 0) this.#before = held.slice();
    this.#log.push(event);
  }

  count(held: readonly HeldKey[], own: HeldKey): number {
    return held.filter((one) => this.#counts(one, own)).length;
  }

  /** `plain` keys in file order; other orders of the tick's events may have found more or fewer. */
  seen(plain: number, own: HeldKey): readonly Alternative[] {
    const counts = new Set<number>();
    if (this.#log.length > replayLimit) {
      for (let n = 0; n <= this.#before.length + this.#log.length; n++) counts.add(n);
    } else if (this.#log.length > 0) {
      const held = new Set(this.#before.filter((one) => this.#counts(one, own)).map(identity));
      counts.add(held.size);
      for (const event of this.#log) {
        if (!this.#counts(event, own)) continue;
        if (event.down) held.add(identity(event));
        else held.delete(identity(event));
        counts.add(held.size);
      }
    }
    return [
      { value: this.#bands.lowest(plain), doubt: 0 },
      ...[...counts].map((n) => ({ value: this.#bands.lowest(n), doubt: order })),
    ];
  }

  endTick(): void {
    this.#log = [];
  }

  #counts(one: Pick<HeldKey, 'channel' | 'key'>, own: Pick<HeldKey, 'channel' | 'key'>): boolean {
    if (!this.#own && one.key === own.key && one.channel === own.channel) return false;
    return this.#keys.some((range) => contains(range, one.key));
  }
}

const identity = ({ channel, key }: Pick<HeldKey, 'channel' | 'key'>): number =>
  channel * 128 + key;
