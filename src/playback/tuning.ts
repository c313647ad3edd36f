import { controllers } from '../terms/controllers.ts';

const unset = 0x7f;
const coarseTuning = 0x0002;

/**
 * Coarse tuning by semitones: registered parameter 00 02 of a channel (MIDI 1.0, "Registered
 * Parameter Numbers"), and master coarse tuning of the port. Some synthesisers choose the zone by
 * the sounding key, others by the played key and tune it.
 */
export class Tuning {
  readonly #msb = new Uint8Array(16).fill(unset);
  readonly #lsb = new Uint8Array(16).fill(unset);
  readonly #semitones = new Int8Array(16);
  #master = 0;
  #tuned = false;

  controller(channel: number, number: number, value: number): void {
    switch (number) {
      case controllers.rpnMsb:
        this.#msb[channel] = value;
        break;
      case controllers.rpnLsb:
        this.#lsb[channel] = value;
        break;
      case controllers.nrpnMsb:
      case controllers.nrpnLsb:
        this.#msb[channel] = unset;
        this.#lsb[channel] = unset;
        break;
      case controllers.dataEntryMsb:
        if (this.#selected(channel) === coarseTuning) {
          this.#semitones[channel] = value - 64;
          this.#tuned = this.#semitones.some((semitones) => semitones !== 0);
        }
        break;
    }
  }

  #selected(channel: number): number {
    return this.#msb[channel]! * 128 + this.#lsb[channel]!;
  }

  setMaster(semitones: number): void {
    this.#master = semitones;
  }

  /** Reset All Controllers deselects the parameter and leaves its value (RP-015). */
  deselect(channel: number): void {
    this.#msb[channel] = unset;
    this.#lsb[channel] = unset;
  }

  reset(): void {
    this.#msb.fill(unset);
    this.#lsb.fill(unset);
    this.#semitones.fill(0);
    this.#tuned = false;
    this.#master = 0;
  }

  /** True when no note is moved anywhere. */
  get isNeutral(): boolean {
    return this.#master === 0 && !this.#tuned;
  }

  /** The keys a note may sound as besides its own, by channel tuning, master tuning, or both. */
  otherKeys(channel: number, key: number): readonly number[] {
    const own = this.#semitones[channel]!;
    const keys = [key + own, key + this.#master, key + own + this.#master];
    return [...new Set(keys)].filter((other) => other !== key && other >= 0 && other <= 127);
  }
}
