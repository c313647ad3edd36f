/** A key that is down, with the velocity it was last struck with. */
export interface HeldKey {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
}

/** The keys that are down in one scope, the most recently struck last. */
export class HeldKeys {
  #keys: HeldKey[] = [];

  get all(): readonly HeldKey[] {
    return this.#keys;
  }

  /** A key struck again while held moves to the top, with its new velocity. */
  press(channel: number, key: number, velocity: number): void {
    this.#keys = this.#keys.filter((held) => held.key !== key || held.channel !== channel);
    this.#keys.push({ channel, key, velocity });
  }

  /** Releases a key; true when it was the most recently struck one. */
  lift(channel: number, key: number): boolean {
    const at = this.#keys.findIndex((held) => held.key === key && held.channel === channel);
    if (at < 0) return false;
    const top = at === this.#keys.length - 1;
    this.#keys.splice(at, 1);
    return top;
  }

  /** Releases all keys of a channel. */
  clear(channel: number): void {
    this.#keys = this.#keys.filter((held) => held.channel !== channel);
  }
}
