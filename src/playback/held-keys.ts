/** A key that is down, with the velocity it was last struck with. */
export interface HeldKey {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
}

const keys = 128;

/** One channel, by key: which strike it was, from 1, and how hard; 0: not held. */
interface Keyboard {
  readonly struck: Float64Array;
  readonly velocity: Uint8Array;
}

/** The keys that are down in one scope, and in which order they were struck. */
export class HeldKeys {
  readonly #keyboards = new Map<number, Keyboard>();
  #strikes = 0;

  /** All of them, the most recently struck last. */
  get all(): readonly HeldKey[] {
    const held: { readonly strike: number; readonly held: HeldKey }[] = [];
    for (const [channel, { struck, velocity }] of this.#keyboards) {
      struck.forEach((strike, key) => {
        if (strike === 0) return;
        held.push({ strike, held: { channel, key, velocity: velocity[key]! } });
      });
    }
    return held.sort((a, b) => a.strike - b.strike).map((one) => one.held);
  }

  /** A key struck again while held becomes the most recent one, with its new velocity. */
  press(channel: number, key: number, velocity: number): void {
    let keyboard = this.#keyboards.get(channel);
    if (keyboard === undefined) {
      keyboard = { struck: new Float64Array(keys), velocity: new Uint8Array(keys) };
      this.#keyboards.set(channel, keyboard);
    }
    keyboard.struck[key] = ++this.#strikes;
    keyboard.velocity[key] = velocity;
  }

  isHeld(channel: number, key: number): boolean {
    return (this.#keyboards.get(channel)?.struck[key] ?? 0) > 0;
  }

  lift(channel: number, key: number): void {
    const keyboard = this.#keyboards.get(channel);
    if (keyboard !== undefined) keyboard.struck[key] = 0;
  }

  /** The most recently struck key of a channel, or null when none is held. */
  latest(channel: number): HeldKey | null {
    const keyboard = this.#keyboards.get(channel);
    if (keyboard === undefined) return null;
    const { struck, velocity } = keyboard;
    let latest = 0;
    for (let key = 1; key < keys; key++) if (struck[key]! > struck[latest]!) latest = key;
    return struck[latest] === 0 ? null : { channel, key: latest, velocity: velocity[latest]! };
  }

  /** Releases all keys of a channel. */
  clear(channel: number): void {
    this.#keyboards.get(channel)?.struck.fill(0);
  }
}
