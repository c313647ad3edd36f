import type { PedalReading } from '../instruments/program.ts';
import { Pedals } from './pedals.ts';

/**
 * Whether something may be held in one scope of a copy: by a key, or by a pedal as any reading has it.
 * The sostenuto pedal counts as a sustain pedal. It holds less than that, and never more.
 */
export class HeldStretch {
  readonly #pedals: readonly Pedals[];
  /** By reading and pedal; all that is down. */
  readonly #pressed = new Set<string>();
  /** By channel and key: strikes whose key is still down. */
  readonly #down = new Map<number, number>();
  #begin: number | null = null;
  /** Since then some key has been down that plays. */
  #plays = false;

  constructor(readings: readonly PedalReading[]) {
    this.#pedals = readings.map((reading) => new Pedals(reading));
    this.#pedals.forEach(({ initial }, i) => {
      for (const { pedal } of initial) this.#pressed.add(`${String(i)} ${pedal}`);
    });
  }

  /** When what is held now began to be held; null where nothing is. */
  get begin(): number | null {
    return this.#begin;
  }

  /** Pedals hold it too, and it goes on once it is let go: no switch that plays nothing. */
  get plays(): boolean {
    return this.#plays;
  }

  strike(channel: number, key: number, plays: boolean, seconds: number): void {
    const place = channel * 128 + key;
    this.#down.set(place, (this.#down.get(place) ?? 0) + 1);
    this.#begin ??= seconds;
    this.#plays ||= plays;
  }

  /** One strike of a key ends. */
  lift(channel: number, key: number): void {
    const place = channel * 128 + key;
    const strikes = this.#down.get(place) ?? 0;
    if (strikes <= 1) this.#down.delete(place);
    else this.#down.set(place, strikes - 1);
  }

  liftAll(channel: number): void {
    for (const place of [...this.#down.keys()]) {
      if (Math.floor(place / 128) === channel) this.#down.delete(place);
    }
  }

  controller(number: number, value: number): void {
    this.#pedals.forEach((pedals, i) => {
      for (const { pedal, down } of pedals.take(number, value)) {
        const name = `${String(i)} ${pedal}`;
        if (down) this.#pressed.add(name);
        else this.#pressed.delete(name);
      }
    });
  }

  /** True when something was held and nothing is any more. */
  get isOver(): boolean {
    const byPedal = this.#plays && this.#pressed.size > 0;
    return this.#begin !== null && this.#down.size === 0 && !byPedal;
  }

  /** Waits for the next key. */
  clear(): void {
    this.#begin = null;
    this.#plays = false;
  }
}
