import type { Range } from '../terms/range.ts';
import { doubtSet, type DoubtSet } from '../terms/doubt.ts';
import type { Life } from './lives.ts';

const tail = doubtSet('tail');
const pedalHeld = doubtSet('pedal-held');

/** A voice from its note-on until nothing of it can sound any more. */
export interface Voice {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  readonly track: number;
  readonly tick: number;
  readonly event: number;
  readonly doubt: DoubtSet;
  /** Known once the tick of the note-on is over. */
  state: number;
  /** Its life ended before its state was known. */
  over: boolean;
  readonly life: Life;
  /** What happened while only a pedal held it: certain once the pedal goes up. */
  readonly underPedal: (readonly Range[])[];
  phase: 'key' | 'pedal' | 'released';
  /** Caught by the sostenuto pedal. */
  sostenuto: boolean;
  releasedAt: number;
}

/** The voices of one scope. Note-offs end the oldest note of their key; no note is ever lost. */
export class Voices {
  readonly #releases: readonly number[];
  #sounding: Voice[] = [];
  readonly #sustain = new Set<number>();

  /** @param releases the release times that the program's fading zones have, in seconds, ascending */
  constructor(releases: readonly number[]) {
    this.#releases = releases;
  }

  start(voice: Voice): void {
    this.#sounding.push(voice);
  }

  /** The key's oldest voice whose key is still down: null when there is none. */
  keyUp(channel: number, key: number, seconds: number): Voice | null {
    const voice = this.#sounding.find(
      (one) => one.phase === 'key' && one.channel === channel && one.key === key,
    );
    if (voice === undefined) return null;
    if (this.#sustain.has(channel) || voice.sostenuto) voice.phase = 'pedal';
    else this.#release(voice, seconds);
    return voice;
  }

  /** Every key of a channel goes up (CC123); with `sound`, what sounds stops at once (CC120). */
  keysUp(channel: number, seconds: number): readonly Voice[] {
    const keys = this.#sounding.filter((one) => one.phase === 'key' && one.channel === channel);
    return keys.flatMap(({ key }) => this.keyUp(channel, key, seconds) ?? []);
  }

  /** Moves the sustain pedal; returns the voices it lets go. */
  sustain(channel: number, down: boolean, seconds: number): readonly Voice[] {
    if (down) this.#sustain.add(channel);
    else this.#sustain.delete(channel);
    return down ? [] : this.#letGo(channel, seconds);
  }

  /** The sostenuto pedal holds only the keys that are down when it goes down. */
  sostenuto(channel: number, down: boolean, seconds: number): readonly Voice[] {
    for (const voice of this.#sounding) {
      if (voice.channel === channel)
        voice.sostenuto = down && (voice.sostenuto || voice.phase === 'key');
    }
    return down ? [] : this.#letGo(channel, seconds);
  }

  /** The fading signals pass through `ranges`. */
  pass(ranges: readonly Range[], seconds: number): void {
    for (const voice of this.#sounding) {
      if (voice.phase === 'key') voice.life.add({ ranges, doubt: 0, after: 0 });
      else if (voice.phase === 'pedal') voice.underPedal.push(ranges);
      else {
        const after = this.#releases.find((release) => release >= seconds - voice.releasedAt);
        if (after !== undefined) voice.life.add({ ranges, doubt: tail, after });
      }
    }
  }

  /** Voices that can't sound any more, taken out. */
  over(seconds: number): readonly Voice[] {
    const longest = this.#releases.at(-1) ?? 0;
    const isOver = (voice: Voice): boolean =>
      voice.phase === 'released' && seconds - voice.releasedAt > longest;
    const over = this.#sounding.filter(isOver);
    if (over.length > 0) this.#sounding = this.#sounding.filter((voice) => !isOver(voice));
    return over;
  }

  /** The cue is over: all that is left; what only pedals held went on under doubt `pedal-held`. */
  end(): readonly Voice[] {
    for (const voice of this.#sounding.filter(({ phase }) => phase === 'pedal')) {
      for (const ranges of voice.underPedal) voice.life.add({ ranges, doubt: pedalHeld, after: 0 });
    }
    return this.#sounding;
  }

  #letGo(channel: number, seconds: number): readonly Voice[] {
    const free = this.#sounding.filter(
      (voice) =>
        voice.phase === 'pedal' &&
        voice.channel === channel &&
        !voice.sostenuto &&
        !this.#sustain.has(channel),
    );
    for (const voice of free) {
      for (const ranges of voice.underPedal) voice.life.add({ ranges, doubt: 0, after: 0 });
      this.#release(voice, seconds);
    }
    return free;
  }

  #release(voice: Voice, seconds: number): void {
    voice.phase = 'released';
    voice.releasedAt = seconds;
  }
}
