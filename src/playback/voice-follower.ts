import type { StartEvent } from '../instruments/program.ts';
import { clock, type Clock } from '../midi/timeline.ts';
import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import type { CopyStream } from './copy-stream.ts';
import type { HeldKey } from './held-keys.ts';
import { Life } from './lives.ts';
import type { PreparedProgram } from './prepared-program.ts';
import type { Scope } from './scope.ts';
import type { StartRecorder } from './start-recorder.ts';
import { Voices, type Voice } from './voices.ts';

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
  }

  /** A new voice, or null where voices are not followed. */
  strike(at: number, own: HeldKey, doubt: DoubtSet): Voice | null {
    if (!this.#prepared.follows) return null;
    const { tick, track, event } = this.#stream;
    const voice: Voice = {
      ...own,
      doubt,
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
    for (const voice of voices[which](channel, down, this.#seconds(at))) {
      this.#start('release', at, voice, plain);
    }
  }

  /** What sounds goes through every value between the old and the new one of changed signals. */
  pass(at: number, channel: number, changed: readonly number[]): void {
    const { fading } = this.#prepared;
    if (!changed.some((signal) => fading.includes(signal))) return;
    const scope = this.#of(channel, this.#scopes);
    const voices = this.#of(channel, this.#voices);
    const seconds = this.#seconds(at);
    for (const voice of voices.over(seconds)) this.#recorder.endVoice(voice);
    const ranges = fading.map((signal): Range => {
      const value = scope.plainValue(signal);
      if (!changed.includes(signal)) return [value, value];
      const from = scope.previousValue(signal);
      return [Math.min(from, value), Math.max(from, value)];
    });
    voices.pass(ranges, seconds);
  }

  /** The cue is over: what still sounds ends, and what only a pedal or a key held is released. */
  endCue(): void {
    if (!this.#prepared.follows) return;
    const last = this.#stream.length - 1;
    for (const voices of this.#voices) {
      const left = voices.end();
      for (const voice of left) {
        this.#recorder.endVoice(voice);
        if (voice.phase !== 'released') this.#start('release', last, voice, pedalHeld);
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
    if (voice.phase === 'released') this.#start('release', at, voice, plain);
  }

  #start(event: StartEvent, at: number, voice: Voice, doubt: DoubtSet): void {
    if (!this.#prepared.listens.has(event)) return;
    const scope = this.#of(voice.channel, this.#scopes);
    this.#recorder.record(event, at, scope, voice, doubt | voice.doubt, null);
  }
}
