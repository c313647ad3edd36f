import { controllers } from '../terms/controllers.ts';

/** Registered parameters that tune (MIDI 1.0, "Registered Parameter Numbers"). */
export const parameters = {
  fineTuning: 1,
  coarseTuning: 2,
  tuningProgram: 3,
  tuningBank: 4,
} as const;

type Parameter = (typeof parameters)[keyof typeof parameters];

const known: readonly number[] = Object.values(parameters);
const count = 5;
const unset = 0x7f;
const centre = 0x2000;
const highest = 0x3fff;

/** The tuning parameters of the sixteen channels, and which of them data entry goes to. */
export class RegisteredParameters {
  readonly #msb = new Uint8Array(16).fill(unset);
  readonly #lsb = new Uint8Array(16).fill(unset);
  readonly #values = new Uint16Array(16 * count);

  constructor() {
    this.reset();
  }

  /** The value, 0 to 16383: data entry MSB x 128 + LSB. */
  value(channel: number, parameter: Parameter): number {
    return this.#values[channel * count + parameter]!;
  }

  /** Takes a control change; returns the parameter that it set, or null. */
  controller(channel: number, number: number, value: number): Parameter | null {
    switch (number) {
      case controllers.rpnMsb:
        this.#msb[channel] = value;
        return null;
      case controllers.rpnLsb:
        this.#lsb[channel] = value;
        return null;
      case controllers.nrpnMsb:
      case controllers.nrpnLsb:
        this.deselect(channel);
        return null;
      case controllers.dataEntryMsb:
        return this.#change(channel, () => value * 128);
      case controllers.dataEntryLsb:
        return this.#change(channel, (old) => (old & ~0x7f) | value);
      case controllers.dataIncrement:
        return this.#change(channel, (old, step) => old + step);
      case controllers.dataDecrement:
        return this.#change(channel, (old, step) => old - step);
      default:
        return null;
    }
  }

  /** No parameter of the channel is selected; values stay. */
  deselect(channel: number): void {
    this.#msb[channel] = unset;
    this.#lsb[channel] = unset;
  }

  reset(): void {
    this.#msb.fill(unset);
    this.#lsb.fill(unset);
    this.#values.fill(0);
    for (let channel = 0; channel < 16; channel++) {
      this.#values[channel * count + parameters.fineTuning] = centre;
      this.#values[channel * count + parameters.coarseTuning] = centre;
    }
  }

  /**
   * Data increment and decrement go one up or down, whatever their value: in the LSB of parameter 1,
   * in the MSB of 2 to 4 (RP-018). At the ends they stay (common practice).
   */
  #change(channel: number, change: (old: number, step: number) => number): Parameter | null {
    const selected = this.#msb[channel]! * 128 + this.#lsb[channel]!;
    if (!isParameter(selected)) return null;
    const step = selected === parameters.fineTuning ? 1 : 128;
    const value = change(this.value(channel, selected), step);
    this.#values[channel * count + selected] = Math.min(highest, Math.max(0, value));
    return selected;
  }
}

const isParameter = (number: number): number is Parameter => known.includes(number);
