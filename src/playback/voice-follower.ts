import type { StartEvent } from '../instruments/program.ts';
import { clock, type Clock } from '../midi/timeline.ts';
import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import type { CopyStream } from './copy-stream.ts';
import { passingMoments } from './first-moments.ts';
import type { HeldKey } from './held-keys.ts';
import { Life } from './lives.ts';
import { PassingTick } from './passing-tick.ts';
import type { PreparedProgram } from './prepared-program.ts';
import type { Scope } from './scope.ts';
import type { StartRecorder } from './start-recorder.ts';
import { Voices, type Voice } from './voices.ts';

const everyChannel = Array.from({ length: 16 }, (_, channel) => channel);

const pedalHeld = doubtSet('pedal-held');

/**
 * Follows the voices of a copy to their ends: what starts when a key or a pedal goes up, and what
 * fading controllers do meanwhile. For programs with neither releases nor fades it does nothing.
 */
export class VoiceFollower {
  readonly #prepared: PreparedProgram;
  readonly #stream: CopyStream;
  readonly #recorder: StartRecorder;
  readonly #scopes: readonly Scope[];
  readonly #voices: readonly Voices[];
  readonly #clock: Clock;
  readonly #ticks: readonly PassingTick[];
  /** Seconds of the last pass. */
  #now = 0;

  constructor(
    prepared: PreparedProgram,
    stream: CopyStream,
    recorder: StartRecorder,
    scopes: readonly Scope[],
  ) {
    this.#prepared = prepared;
    this.#stream = stream;
    this.#recorder = recorder;
    this.#scopes = scopes;
    this.#voices = scopes.map(() => new Voices(prepared.releases));
    this.#clock = clock(stream.timeline);
    this.#ticks = scopes.map(() => new PassingTick());
  }

  /** A new voice, or null where voices are not followed. */
  strike(at: number, own: HeldKey, doubt: DoubtSet): Voice | null {
    if (!this.#prepared.follows) return null;
    const voice = this.#voice('note-on', at, own, doubt);
    this.#of(own.channel, this.#voices).start(voice);
    return voice;
  }

  keyUp(at: number, channel: number, key: number): void {
    if (!this.#prepared.follows) return;
    const voices = this.#of(channel, this.#voices);
    const voice = voices.keyUp(channel, key, this.#seconds(at));
    if (voice !== null) this.#wentUp(at, voice);
  }

  /** Every key of the channel goes up. */
  keysUp(at: number, channel: number): void {
    if (!this.#prepared.follows) return;
    const voices = this.#of(channel, this.#voices);
    for (const voice of voices.keysUp(channel, this.#seconds(at))) this.#wentUp(at, voice);
  }

  pedal(at: number, channel: number, which: 'sustain' | 'sostenuto', down: boolean): void {
    if (!this.#prepared.follows) return;
    const voices = this.#of(channel, this.#voices);
    // One state for all channels of the copy: its pedal holds them all.
    const channels = this.#voices.length === 1 ? everyChannel : [channel];
    for (const one of channels) {
      for (const voice of voices[which](one, down, this.#seconds(at))) {
        this.#of(channel, this.#ticks).ended(voice);
        this.#start('release', at, voice, plain);
      }
    }
  }

  /** What sounds goes through every value between the old and the new one of changed signals. */
  pass(at: number, channel: number, changed: readonly number[]): void {
    const { fading } = this.#prepared;
    if (!changed.some((signal) => fading.includes(signal))) return;
    const scope = this.#of(channel, this.#scopes);
    const voices = this.#of(channel, this.#voices);
    const seconds = this.#seconds(at);
    this.#now = seconds;
    for (const voice of voices.over(seconds)) this.#recorder.endVoice(voice);
    voices.pass(passingMoments(fading, changed, scope), seconds);
    this.#of(channel, this.#ticks).pass(fading, changed, scope);
  }

  endTick(): void {
    if (this.#prepared.fading.length === 0) return;
    this.#ticks.forEach((tick, i) => {
      tick.end((moment) => this.#voices[i]!.pass([moment], this.#now));
    });
  }

  /** The cue is over: what still sounds ends, and what only a pedal or a key held is released. */
  endCue(): void {
    if (!this.#prepared.follows) return;
    const last = this.#stream.length - 1;
    for (const voices of this.#voices) {
      const left = voices.end();
      for (const voice of left) {
        this.#recorder.endVoice(voice);
        if (voice.phase === 'released') continue;
        const started = this.#start('release', last, voice, pedalHeld);
        // Nothing comes after it.
        if (started !== null) started.over = true;
      }
    }
  }

  #of<T>(channel: number, list: readonly T[]): T {
    return list[list.length === 1 ? 0 : channel]!;
  }

  #seconds(at: number): number {
    return this.#clock.secondsAt(this.#stream.tick[at]!);
  }

  #wentUp(at: number, voice: Voice): void {
    this.#start('note-off', at, voice, plain);
    if (voice.phase !== 'released') return;
    this.#of(voice.channel, this.#ticks).ended(voice);
    this.#start('release', at, voice, plain);
  }

  #start(event: StartEvent, at: number, voice: Voice, doubt: DoubtSet): Voice | null {
    if (!this.#prepared.listens.has(event)) return null;
    const scope = this.#of(voice.channel, this.#scopes);
    const all = doubt | voice.doubt;
    let started: Voice | null = null;
    if (this.#prepared.fading.length > 0) {
      started = this.#voice(event, at, voice, all);
      started.phase = 'released';
      started.releasedAt = at < 0 ? 0 : this.#seconds(at);
      this.#of(voice.channel, this.#voices).startReleased(started);
    }
    this.#recorder.record(event, at, scope, voice, all, started);
    return started;
  }

  #voice(startedBy: StartEvent, at: number, own: HeldKey, doubt: DoubtSet): Voice {
    const { tick, track, event } = this.#stream;
    return {
      channel: own.channel,
      key: own.key,
      velocity: own.velocity,
      doubt,
      startedBy,
      track: track[at]!,
      tick: tick[at]!,
      event: event[at]!,
      state: -1,
      over: false,
      life: new Life(),
      underPedal: [],
      phase: 'key',
      sostenuto: false,
      releasedAt: 0,
    };
  }
}
