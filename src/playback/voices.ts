import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import { Life } from './lives.ts';
import { OwnMoments } from './own-moments.ts';
import type { Sound } from './sound.ts';
import type { Moment } from './zone-usage.ts';

const pedalHeld = doubtSet('pedal-held');

/** A sound as long as one way of holding it lasts: from its start until nothing of it can sound. */
export interface Voice {
  readonly sound: Sound;
  /** What it goes through is part of the sound's life; else it only waits for its release. */
  readonly lives: boolean;
  /** Doubt of what it goes through once it has been let go. */
  readonly tail: DoubtSet;
  /** Sounds to the end of the cue. */
  readonly endless: boolean;
  /** The first pass while only a pedal holds it: certain once the pedal goes up. */
  underPedal: number;
  phase: 'key' | 'pedal' | 'released';
  /** Caught by the sostenuto pedal. */
  sostenuto: boolean;
  /** Its key has gone up for those that let go all strikes of a key at once. */
  isLetGo: boolean;
  releasedAt: number;
}

/** A voice after its release, and the first pass that comes behind it. */
interface Released {
  readonly voice: Voice;
  readonly from: number;
}

/** How voices of one kind are held. */
export interface VoicesOptions {
  /** The release times that the fading zones so held have, in seconds, ascending. */
  readonly releases: readonly number[];
  /** Index of the hold that their moments belong to, or `anyHold`. */
  readonly hold: number;
  /** Doubt of this way to hold them. */
  readonly doubt: DoubtSet;
}

const none: readonly Voice[] = [];

/** The voices of one scope. Note-offs end the oldest note of their key; no note is ever lost. */
export class Voices {
  readonly #options: VoicesOptions;
  readonly #releases: readonly number[];
  readonly #own: OwnMoments;
  /** Held by a key. */
  #down: Voice[] = [];
  /** Held by a pedal alone, for as long as the cue if need be. */
  #pedalled: Voice[] = [];
  /** What fading signals went through since a pedal first held one of those. */
  #underPedal: (readonly Moment[])[] = [];
  /** The same by channel, key, velocity and doubt. */
  readonly #held = new Map<number, { readonly sound: Sound; count: number }>();
  #released: Released[] = [];
  /** What fading signals went through since the first release. */
  #passes: (readonly Moment[])[] = [];
  /** The seconds of each. */
  #passedAt: number[] = [];
  readonly #sustain = new Set<number>();
  /** When the first of those was released that may be over; Infinity: there is none. */
  #oldest = Infinity;

  constructor(options: VoicesOptions) {
    const { releases, hold, doubt } = options;
    this.#options = options;
    this.#releases = releases;
    this.#own = new OwnMoments(hold, doubt);
  }

  /** No voices, the pedals as they stand, and what is held so in further doubt. */
  aside(doubt: DoubtSet): Voices {
    const aside = new Voices({ ...this.#options, doubt: this.#options.doubt | doubt });
    for (const channel of this.#sustain) aside.#sustain.add(channel);
    return aside;
  }

  /** The sustain pedal is down. */
  sustains(channel: number): boolean {
    return this.#sustain.has(channel);
  }

  /** All that the sostenuto pedal has caught. */
  get caught(): ReadonlySet<Voice> {
    return new Set([...this.#down, ...this.#pedalled].filter(({ sostenuto }) => sostenuto));
  }

  /** Whose key is down. */
  down(channel: number, key: number): readonly Voice[] {
    return this.#down.filter(({ sound }) => sound.channel === channel && sound.pressed === key);
  }

  /** What is held by a key or a pedal; of sounds that nothing tells apart but when they began, one. */
  get held(): Iterable<Sound> {
    return [...this.#held.values()].map(({ sound }) => sound);
  }

  start(voice: Voice): void {
    if (voice.phase === 'key') this.#down.push(voice);
    else this.#holdByPedal(voice);
    const { sound } = voice;
    const alike = this.#held.get(kindOf(sound));
    if (alike === undefined) this.#held.set(kindOf(sound), { sound, count: 1 });
    else alike.count++;
  }

  /** A voice that no key and no pedal holds. */
  startReleased(voice: Voice): void {
    this.#letEnd(voice);
  }

  /**
   * The oldest voice of a press whose key is still down, and all that was started further from the key,
   * once no press of it is left.
   */
  keyUp(channel: number, key: number, seconds: number): readonly Voice[] {
    const down = this.down(channel, key);
    const [first, ...others] = down.filter(({ sound }) => !sound.isFurther);
    const further = others.length > 0 ? [] : down.filter(({ sound }) => sound.isFurther);
    const voices = first === undefined ? further : [first, ...further];
    const held = voices.filter(({ sostenuto }) => this.#sustain.has(channel) || sostenuto);
    for (const voice of held) this.#holdByPedal(voice);
    this.#release(
      voices.filter((voice) => !held.includes(voice)),
      seconds,
    );
    if (voices.length > 0) this.#down = this.#down.filter(({ phase }) => phase === 'key');
    return voices;
  }

  /** Every key of a channel goes up. */
  keysUp(channel: number, seconds: number): readonly Voice[] {
    const keys = this.#down.filter(({ sound }) => sound.channel === channel);
    return keys.flatMap(({ sound }) => this.keyUp(channel, sound.pressed, seconds));
  }

  /** Moves the sustain pedal; returns the voices it lets go. */
  sustain(channel: number, down: boolean, seconds: number): readonly Voice[] {
    if (down) this.#sustain.add(channel);
    else this.#sustain.delete(channel);
    return down ? [] : this.#letGo(channel, seconds);
  }

  /** The sostenuto pedal holds only the keys that are down when it goes down. */
  sostenuto(channel: number, down: boolean, seconds: number): readonly Voice[] {
    for (const voice of this.#down) if (voice.sound.channel === channel) voice.sostenuto = down;
    for (const voice of this.#pedalled) {
      if (voice.sound.channel === channel) voice.sostenuto = false;
    }
    return down ? [] : this.#letGo(channel, seconds);
  }

  /** What the fading signals go through at `seconds`, which never descend. */
  pass(moments: readonly Moment[], seconds: number): void {
    if (this.#down.length > 0) {
      const own = this.#own.all(moments, plain, 0);
      for (const { lives, sound } of this.#down) {
        if (lives) for (const moment of own) sound.life.add(moment);
      }
    }
    if (this.#pedalled.length > 0) this.#underPedal.push(moments);
    if (this.#released.length === 0) return;
    this.#passes.push(moments);
    this.#passedAt.push(seconds);
  }

  /** Adds to the life of a voice, for the zones and the reading it stands for. */
  live({ sound, lives }: Voice, moment: Moment): void {
    if (lives) sound.life.add(this.#own.one(moment, plain));
  }

  /** Voices that can't sound any more, taken out. */
  over(seconds: number): readonly Voice[] {
    const longest = this.#releases.at(-1) ?? 0;
    if (longest === Infinity || seconds - this.#oldest <= longest) return none;
    const over: Voice[] = [];
    const left: Released[] = [];
    for (const one of this.#released) {
      const { endless, releasedAt } = one.voice;
      if (endless || seconds - releasedAt <= longest) left.push(one);
      else {
        this.#fadeOut(one);
        over.push(one.voice);
      }
    }
    this.#released = left;
    this.#oldest = left.find(({ voice }) => !voice.endless)?.voice.releasedAt ?? Infinity;
    if (left.length === 0) {
      this.#passes = [];
      this.#passedAt = [];
    }
    return over;
  }

  /** The cue is over: all that is left; what only pedals held went on under doubt `pedal-held`. */
  end(): readonly Voice[] {
    this.#liveUnderPedal(this.#pedalled, pedalHeld);
    const released = this.#released;
    const releases = this.#releases;
    if (releases.length === 1 && releases[0] === Infinity) this.#fadeOutAll(released);
    else for (const one of released) this.#fadeOut(one);
    return [...this.#down, ...this.#pedalled, ...released.map(({ voice }) => voice)];
  }

  /** What a voice may have sounded through after its release. */
  #fadeOut({ voice, from }: Released): void {
    if (!voice.lives) return;
    const done = new Set<readonly Moment[]>();
    let last = -1;
    for (let i = from; i < this.#passes.length; i++) {
      const moments = this.#passes[i]!;
      const since = this.#passedAt[i]! - voice.releasedAt;
      const after = voice.endless ? 0 : this.#releases.find((release) => release >= since);
      if (after === undefined) return;
      if (after !== last) {
        done.clear();
        last = after;
      }
      // What it has gone through once, it has gone through.
      if (done.has(moments)) continue;
      done.add(moments);
      for (const one of this.#own.all(moments, voice.tail, after)) voice.sound.life.add(one);
    }
  }

  /**
   * The same for voices that may sound to the end of the cue: what one goes through, those before it
   * go through too, so it is gathered once, from the end.
   */
  #fadeOutAll(released: readonly Released[]): void {
    const rest = new Life();
    let next = this.#passes.length;
    let own: readonly Moment[] = [];
    let last: Voice | null = null;
    for (const { voice, from } of [...released].sort((a, b) => b.from - a.from)) {
      let isKnown = last?.tail === voice.tail && last.endless === voice.endless;
      for (; next > from; next--) {
        isKnown = false;
        for (const one of this.#passes[next - 1]!) rest.add(one);
      }
      const after = voice.endless ? 0 : Infinity;
      if (!isKnown) own = rest.moments.map((one) => this.#own.one(one, voice.tail, after));
      last = voice;
      if (voice.lives) for (const one of own) voice.sound.life.add(one);
    }
  }

  #letGo(channel: number, seconds: number): readonly Voice[] {
    if (this.#sustain.has(channel)) return none;
    const free = this.#pedalled.filter(
      ({ sound, sostenuto }) => sound.channel === channel && !sostenuto,
    );
    this.#liveUnderPedal(free, plain);
    this.#release(free, seconds);
    if (free.length > 0) this.#pedalled = this.#pedalled.filter(({ phase }) => phase === 'pedal');
    if (this.#pedalled.length === 0) this.#underPedal = [];
    return free;
  }

  #holdByPedal(voice: Voice): void {
    voice.phase = 'pedal';
    voice.underPedal = this.#underPedal.length;
    this.#pedalled.push(voice);
  }

  /** What one voice goes through those before it do too: it is gathered once, from the end. */
  #liveUnderPedal(voices: readonly Voice[], doubt: DoubtSet): void {
    const rest = new Life();
    let next = this.#underPedal.length;
    for (const voice of [...voices].sort((a, b) => b.underPedal - a.underPedal)) {
      for (; next > voice.underPedal; next--) {
        for (const one of this.#underPedal[next - 1]!) rest.add(one);
      }
      for (const one of rest.moments) this.live(voice, { ...one, doubt: one.doubt | doubt });
    }
  }

  #release(voices: readonly Voice[], seconds: number): void {
    for (const voice of voices) {
      voice.phase = 'released';
      voice.releasedAt = seconds;
      const kind = kindOf(voice.sound);
      const alike = this.#held.get(kind)!;
      if (--alike.count === 0) this.#held.delete(kind);
      this.#letEnd(voice);
    }
  }

  #letEnd(voice: Voice): void {
    this.#released.push({ voice, from: this.#passes.length });
    if (!voice.endless) this.#oldest = Math.min(this.#oldest, voice.releasedAt);
  }
}

const kindOf = ({ channel, key, velocity, doubt }: Sound): number =>
  ((doubt * 16 + channel) * 128 + key) * 128 + velocity;
