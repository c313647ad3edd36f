import type { StartEvent } from '../instruments/program.ts';
import { doubtSet, type DoubtSet } from '../terms/doubt.ts';
import { Life } from './lives.ts';
import type { Moment } from './zone-usage.ts';

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
  /** What started it. */
  readonly startedBy: StartEvent;
  /** Known once the tick of the note-on is over. */
  state: number;
  /** Its life ended before its state was known. */
  over: boolean;
  readonly life: Life;
  /** What happened while only a pedal held it: certain once the pedal goes up. */
  readonly underPedal: Moment[];
  phase: 'key' | 'pedal' | 'released';
  /** Caught by the sostenuto pedal. */
  sostenuto: boolean;
  releasedAt: number;
}

/** A voice after its release, and the first pass that comes behind it. */
interface Released {
  readonly voice: Voice;
  readonly from: number;
}

/** The voices of one scope. Note-offs end the oldest note of their key; no note is ever lost. */
export class Voices {
  readonly #releases: readonly number[];
  /** Held by a key or a pedal. */
  #sounding: Voice[] = [];
  #released: Released[] = [];
  /** What fading signals went through since the first release. */
  readonly #passes: { readonly moments: readonly Moment[]; readonly seconds: number }[] = [];
  readonly #sustain = new Set<number>();

  /** @param releases the release times that the program's fading zones have, in seconds, ascending */
  constructor(releases: readonly number[]) {
    this.#releases = releases;
  }

  start(voice: Voice): void {
    this.#sounding.push(voice);
  }

  /** A voice that a release has started: no key and no pedal holds it. */
  startReleased(voice: Voice): void {
    this.#released.push({ voice, from: this.#passes.length });
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

  /** What the fading signals go through at `seconds`, which never descend. */
  pass(moments: readonly Moment[], seconds: number): void {
    for (const voice of this.#sounding) {
      if (voice.phase === 'pedal') voice.underPedal.push(...moments);
      else for (const moment of moments) voice.life.add(moment);
    }
    if (this.#released.length > 0) this.#passes.push({ moments, seconds });
  }

  /** Voices that can't sound any more, taken out. */
  over(seconds: number): readonly Voice[] {
    const longest = this.#releases.at(-1) ?? 0;
    if (longest === Infinity) return [];
    const isOver = ({ voice }: Released): boolean => seconds - voice.releasedAt > longest;
    const over = this.#released.filter(isOver);
    if (over.length === 0) return [];
    this.#released = this.#released.filter((one) => !isOver(one));
    for (const one of over) this.#fadeOut(one);
    return over.map(({ voice }) => voice);
  }

  /** The cue is over: all that is left; what only pedals held went on under doubt `pedal-held`. */
  end(): readonly Voice[] {
    for (const voice of this.#sounding.filter(({ phase }) => phase === 'pedal')) {
      for (const one of voice.underPedal) voice.life.add({ ...one, doubt: one.doubt | pedalHeld });
    }
    const released = this.#released;
    if (this.#releases.length === 1 && this.#releases[0] === Infinity) this.#fadeOutAll(released);
    else for (const one of released) this.#fadeOut(one);
    return [...this.#sounding, ...released.map(({ voice }) => voice)];
  }

  /** What a voice may have sounded through after its release. */
  #fadeOut({ voice, from }: Released): void {
    for (let i = from; i < this.#passes.length; i++) {
      const { moments, seconds } = this.#passes[i]!;
      const after = this.#releases.find((release) => release >= seconds - voice.releasedAt);
      if (after === undefined) return;
      for (const one of moments) voice.life.add({ ...one, doubt: one.doubt | tail, after });
    }
  }

  /**
   * The same for voices that may sound to the end of the cue: what one goes through, those before it
   * go through too, so it is gathered once, from the end.
   */
  #fadeOutAll(released: readonly Released[]): void {
    const rest = new Life();
    let next = this.#passes.length;
    for (const { voice, from } of [...released].sort((a, b) => b.from - a.from)) {
      for (; next > from; next--) {
        for (const one of this.#passes[next - 1]!.moments) {
          rest.add({ ...one, doubt: one.doubt | tail, after: Infinity });
        }
      }
      for (const one of rest.moments) voice.life.add(one);
    }
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
      for (const one of voice.underPedal) voice.life.add(one);
      this.#release(voice, seconds);
    }
    return free;
  }

  #release(voice: Voice, seconds: number): void {
    voice.phase = 'released';
    voice.releasedAt = seconds;
    this.#sounding = this.#sounding.filter((one) => one !== voice);
    this.#released.push({ voice, from: this.#passes.length });
  }
}
