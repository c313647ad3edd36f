import { parameters, RegisteredParameters } from './registered-parameters.ts';
import type { TuningMessage } from './tuning-message.ts';
import { TuningTables } from './tuning-tables.ts';

/**
 * What moves notes to other keys: coarse tuning by semitones, that is registered parameter 00 02 of a
 * channel (MIDI 1.0, "Registered Parameter Numbers") and master coarse tuning of the port (CA-025);
 * tuning programs and scales (MIDI Tuning Standard). Some synthesisers choose the zone by the
 * sounding key, others by the played key and tune it.
 */
export class Tuning {
  readonly #parameters = new RegisteredParameters();
  readonly #tables = new TuningTables();
  readonly #semitones = new Int8Array(16);
  #master = 0;
  #tuned = false;
  /** Answers by channel x 128 + key, until something changes. */
  readonly #found = new Map<number, readonly number[]>();

  controller(channel: number, number: number, value: number): void {
    const parameter = this.#parameters.controller(channel, number, value);
    if (parameter === null) return;
    this.#found.clear();
    const entered = this.#parameters.value(channel, parameter) >> 7;
    switch (parameter) {
      case parameters.fineTuning:
        break;
      case parameters.coarseTuning:
        this.#semitones[channel] = entered - 64;
        this.#tuned = this.#semitones.some((semitones) => semitones !== 0);
        break;
      case parameters.tuningProgram:
        this.#tables.selectProgram(channel, entered);
        break;
      case parameters.tuningBank:
        this.#tables.selectBank(channel, entered);
        break;
    }
  }

  setMaster(semitones: number): void {
    this.#found.clear();
    this.#master = semitones;
  }

  /** Takes a message of the MIDI Tuning Standard. */
  take(message: TuningMessage): void {
    this.#found.clear();
    this.#tables.take(message);
  }

  /** Reset All Controllers deselects the parameter and leaves its value (RP-015). */
  deselect(channel: number): void {
    this.#parameters.deselect(channel);
  }

  reset(): void {
    this.#found.clear();
    this.#parameters.reset();
    this.#tables.reset();
    this.#semitones.fill(0);
    this.#tuned = false;
    this.#master = 0;
  }

  /** True when no note is moved anywhere. */
  get isNeutral(): boolean {
    return this.#master === 0 && !this.#tuned && this.#tables.isNeutral;
  }

  /**
   * The keys a note may sound as besides its own: by tuning program, scale, channel tuning, master
   * tuning, or several of them. A pitch between two keys counts as the lower one, and from half way
   * up as the upper one too: synthesisers cut off (the `xx` of the frequency data) or round to the
   * nearest (FluidSynth 2.3).
   */
  otherKeys(channel: number, key: number): readonly number[] {
    const place = channel * 128 + key;
    let found = this.#found.get(place);
    if (found === undefined) this.#found.set(place, (found = this.#otherKeys(channel, key)));
    return found;
  }

  #otherKeys(channel: number, key: number): readonly number[] {
    const own = this.#semitones[channel]!;
    const keys = new Set<number>();
    for (const pitch of this.#pitches(channel, key)) {
      for (const moved of [0, own, this.#master, own + this.#master]) {
        keys.add(Math.floor(pitch + moved));
        keys.add(Math.floor(pitch + moved + 0.5));
      }
    }
    return [...keys].filter((other) => other !== key && other >= 0 && other <= 127);
  }

  /**
   * Fine tuning alone chooses no other key; where a tuning program or scale has to do with the
   * channel, it may tip the pitch over to the next (FluidSynth 2.3 adds it before it rounds).
   */
  #pitches(channel: number, key: number): readonly number[] {
    const tuned = this.#tables.pitches(channel, key);
    const fine = (this.#parameters.value(channel, parameters.fineTuning) - 8192) / 8192;
    return fine === 0 ? [key, ...tuned] : [key, ...tuned, ...tuned.map((pitch) => pitch + fine)];
  }
}
