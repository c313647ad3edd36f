import type { HeldKey } from './held-keys.ts';

/** Ticks become seconds by division: equal moments may differ in the last bits. */
const tolerance = 1e-9;

type Key = Pick<HeldKey, 'channel' | 'key'>;

interface KeyEvent extends Key {
  readonly down: boolean;
}

/** A key that was let go, and when. */
interface Lifted extends Key {
  readonly seconds: number;
}

/**
 * What the keys of one scope do, written once for all its held signals: the events of the current
 * tick, the keys that were down before it, and those that were let go a short while ago.
 */
export class KeyLog {
  /** Seconds for which keys that were let go are remembered; null: not at all. */
  readonly #memory: number | null;
  readonly #lifted = new Map<number, Lifted>();
  /** By key: 1 where the current tick has an event of it. */
  readonly #touched = new Uint8Array(128);
  #events: KeyEvent[] = [];
  #before: readonly HeldKey[] = [];
  #liftedBefore: readonly Lifted[] = [];
  #now = 0;

  /** @param memory seconds for which keys that were let go still matter; null: they don't */
  constructor(memory: number | null) {
    this.#memory = memory;
  }

  /** The key events of the current tick so far. */
  get events(): readonly KeyEvent[] {
    return this.#events;
  }

  /** The keys that were down before the first of them. */
  get before(): readonly HeldKey[] {
    return this.#before;
  }

  /** A tick begins; moments never descend. */
  arrive(seconds: number): void {
    this.#now = seconds;
  }

  /**
   * A key event of the current tick.
   *
   * @param held the keys before it; only asked for where it is the first
   * @param isHeld the key was down before it
   */
  note(event: KeyEvent, held: () => readonly HeldKey[], isHeld: boolean): void {
    if (this.#events.length === 0) {
      this.#before = held();
      if (this.#memory !== null) this.#liftedBefore = this.#recent(this.#memory);
    }
    this.#events.push(event);
    this.#touched[event.key] = 1;
    if (this.#memory === null) return;
    if (event.down) this.#lifted.delete(identity(event));
    else if (isHeld) this.#lifted.set(identity(event), { ...event, seconds: this.#now });
  }

  /** True when the current tick has an event of one of `keys`. */
  touches(keys: readonly number[]): boolean {
    return this.#events.length > 0 && keys.some((key) => this.#touched[key] === 1);
  }

  /** Keys that are up, and were let go not longer than so many seconds ago. */
  recent(within: number): readonly Key[] {
    return this.#lifted.size === 0 ? none : this.#recent(within);
  }

  /** The same as it was before the first event of the current tick. */
  recentBefore(within: number): readonly Key[] {
    return this.#liftedBefore.filter((one) => this.#isRecent(one, within));
  }

  endTick(): void {
    for (const { key } of this.#events) this.#touched[key] = 0;
    this.#events = [];
  }

  #recent(within: number): readonly Lifted[] {
    const recent: Lifted[] = [];
    for (const [id, one] of this.#lifted) {
      if (this.#isRecent(one, within)) recent.push(one);
      else if (!this.#isRecent(one, this.#memory!)) this.#lifted.delete(id);
    }
    return recent;
  }

  #isRecent({ seconds }: Lifted, within: number): boolean {
    return this.#now - seconds <= within + tolerance;
  }
}

const none: readonly Key[] = [];

/** A number for each key of each channel. */
export const identity = ({ channel, key }: Key): number => channel * 128 + key;
