import type { TuningMessage } from './tuning-message.ts';

/** The tuning programs that a port stores, and what is in force on its channels. */
export class TuningTables {
  /** By bank x 128 + program: the pitch of each of 128 keys, in semitones (60: middle C). */
  readonly #stored = new Map<number, Float64Array>();
  /** Per channel the offsets of the notes from C to B, in semitones. */
  readonly #scales = new Map<number, readonly number[]>();
  readonly #choices = new Map<number, Choice>();

  take(message: TuningMessage): void {
    if (message.kind === 'scale') {
      for (const channel of message.channels) this.#scales.set(channel, message.offsets);
      return;
    }
    const slot = message.bank * 128 + message.program;
    let table = this.#stored.get(slot);
    if (table === undefined) this.#stored.set(slot, (table = Float64Array.from(everyKey)));
    for (const [key, pitch] of message.pitches) table[key] = pitch;
  }

  /** Tuning program select, registered parameter 3. */
  selectProgram(channel: number, program: number): void {
    const bank = this.#choice(channel).asked >> 7;
    const slot = bank * 128 + program;
    this.#choose(channel, slot, slot);
  }

  /** Tuning bank select, registered parameter 4. */
  selectBank(channel: number, bank: number): void {
    const { asked, latched } = this.#choice(channel);
    this.#choose(channel, bank * 128 + (asked & 0x7f), latched);
  }

  reset(): void {
    this.#stored.clear();
    this.#scales.clear();
    this.#choices.clear();
  }

  /** True when nothing has been stored, selected, or set. */
  get isNeutral(): boolean {
    return this.#stored.size === 0 && this.#scales.size === 0 && this.#choices.size === 0;
  }

  /**
   * The pitches, in semitones, that a key may be tuned to on a channel; none where neither a program
   * nor a scale has to do with the channel. A scale moves keys from where the program has them
   * (CA-021); one of the two, or both, may be what the instrument knows of.
   */
  pitches(channel: number, key: number): readonly number[] {
    const { asked, latched, known } = this.#choice(channel);
    const pitches = [key];
    for (const slot of new Set([asked, latched, known])) {
      const table = this.#stored.get(slot);
      if (table !== undefined) pitches.push(table[key]!);
    }
    const scale = this.#scales.get(channel);
    if (scale !== undefined) return [...pitches, ...pitches.map((p) => p + scale[key % 12]!)];
    return pitches.length > 1 || this.#choices.has(channel) ? pitches : [];
  }

  #choice(channel: number): Choice {
    return this.#choices.get(channel) ?? powerOn;
  }

  #choose(channel: number, asked: number, latched: number): void {
    const known = this.#stored.has(asked) ? asked : this.#choice(channel).known;
    this.#choices.set(channel, { asked, latched, known });
  }
}

/**
 * The program in force, as bank x 128 + program, in three readings: a bank acts at once (MIDI Tuning,
 * "Changing Tuning Programs"), or with the next program select (as in FluidSynth 2.3); and a program
 * the instrument does not have leaves it with the one before (the same section).
 */
interface Choice {
  readonly asked: number;
  readonly latched: number;
  readonly known: number;
}

/** A channel that never selected any has program 0 of bank 0. */
const powerOn: Choice = { asked: 0, latched: 0, known: 0 };

const everyKey: readonly number[] = Array.from({ length: 128 }, (_, key) => key);
