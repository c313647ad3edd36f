import type { HeldKey } from './held-keys.ts';

/** More strikes than this are forgotten, the oldest first: no player holds as many notes on a channel. */
const strikeLimit = 64;

/**
 * The keys that a synthesiser may still count as held for the sake of one-note playing (doubt
 * `engine`). They differ on when such a list is emptied and on which channels mono mode counts:
 * FluidSynth 2.3 keeps its list through CC120 and CC123 and lets CC126 cover a group of channels. So
 * every strike counts until its own note-off, and mono mode once said stays in mind.
 */
export class LooseKeys {
  readonly #strikes = new Map<number, HeldKey[]>();
  readonly #mono = new Set<number>();

  strike(own: HeldKey): void {
    const strikes = this.#strikes.get(own.channel);
    if (strikes === undefined) this.#strikes.set(own.channel, [own]);
    else if (strikes.push(own) > strikeLimit) strikes.shift();
  }

  /** Takes the oldest strike of a key away; what is left on top, or null when nothing was taken. */
  lift(channel: number, key: number): HeldKey | null {
    const strikes = this.#strikes.get(channel) ?? [];
    const at = strikes.findIndex((strike) => strike.key === key);
    if (at < 0) return null;
    strikes.splice(at, 1);
    return strikes.at(-1) ?? null;
  }

  /** CC126 on `channel`: `count` channels from there on, 0 for all that follow (MIDI 1.0, mode 4). */
  monoOn(channel: number, count: number): void {
    const end = count === 0 ? 16 : Math.min(16, channel + count);
    for (let one = channel; one < end; one++) this.#mono.add(one);
  }

  isMono(channel: number): boolean {
    return this.#mono.has(channel);
  }

  reset(): void {
    this.#strikes.clear();
    this.#mono.clear();
  }
}
