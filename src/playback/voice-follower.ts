import type { StartEvent } from '../instruments/program.ts';
import { clock, type Clock } from '../midi/timeline.ts';
import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import type { CopyStream } from './copy-stream.ts';
import type { Choice } from './first-moments.ts';
import type { HeldKey } from './held-keys.ts';
import { asideOf, heldVoices, type HeldVoices } from './held-voices.ts';
import type { Fate, LetGo } from './let-go.ts';
import { Life } from './lives.ts';
import { MomentTable } from './moment-table.ts';
import type { PreparedProgram } from './prepared-program.ts';
import type { Scope } from './scope.ts';
import type { Sound } from './sound.ts';
import type { StartRecorder } from './start-recorder.ts';
import type { Voice } from './voices.ts';
import { anyHold } from './zone-usage.ts';

/** A voice that a pedal has let go. */
export interface Freed {
  readonly voice: Voice;
  readonly line: HeldVoices;
}

const noneFreed: readonly Freed[] = [];

const everyChannel = Array.from({ length: 16 }, (_, channel) => channel);

const pedalHeld = doubtSet('pedal-held');
const tail = doubtSet('tail');
const engine = doubtSet('engine');
const order = doubtSet('order');

/**
 * Follows what sounds in a copy to its end: what starts when a key or a pedal goes up or when another
 * key goes down, and what fading controllers do meanwhile. Where neither matters it does nothing.
 */
export class VoiceFollower {
  readonly #prepared: PreparedProgram;
  readonly #stream: CopyStream;
  readonly #recorder: StartRecorder;
  readonly #scopes: readonly Scope[];
  /** Per scope, every way to hold a voice that makes a difference here. */
  readonly #lines: readonly HeldVoices[][];
  readonly #clock: Clock;
  readonly #moments: MomentTable;
  /** Of each scope one: a key goes up once, however many ways there are to hold what it started. */
  readonly #lifting: ReadonlySet<HeldVoices>;
  /** The cue is over: nothing that starts now goes through anything. */
  #isOver = false;
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
    this.#lines = heldVoices(prepared, stream, scopes.length);
    this.#lifting = new Set(
      this.#lines.flatMap((lines) => lines.find(({ waits, oneShot }) => waits || !oneShot) ?? []),
    );
    this.#clock = clock(stream.timeline);
    this.#moments = new MomentTable(prepared.fading);
  }

  /**
   * A new note: what of it has to be followed, or null where nothing has.
   *
   * @param pressed the key behind it, where it is none of a press: started again, or tuned; else null
   */
  strike(at: number, own: HeldKey, doubt: DoubtSet, pressed: number | null): Sound | null {
    if (!this.#prepared.follows) return null;
    const sound = this.#sound('note-on', at, own, doubt, anyHold, -1, pressed);
    const fades = this.#prepared.fading.length > 0;
    for (const line of this.#linesOf(own.channel)) {
      if (line.isAside) continue;
      if (line.oneShot) {
        if (fades && line.isPlain) this.#startReleased(at, line, sound, plain, false);
        if (line.waits) line.voices.start(voiceOf(sound, false));
      } else {
        const voice = voiceOf(sound, fades);
        line.voices.start(voice);
        if (fades) {
          sound.open++;
          line.tick.borders(voice);
        }
      }
    }
    return sound;
  }

  /** A key goes down: what it may cut short, or may let go because it is the same key. */
  interrupt(at: number, channel: number, key: number): void {
    const { listens } = this.#prepared;
    if (!listens.has('restrike') && !listens.has('cut')) return;
    for (const line of this.#linesOf(channel)) {
      if (!line.waits) continue;
      for (const sound of line.voices.held) {
        const doubt = line.doubt | sound.doubt;
        if (sound.channel === channel && sound.key === key)
          this.#start('restrike', at, sound, doubt, line);
        this.#start('cut', at, sound, doubt, line);
      }
    }
  }

  keyUp(at: number, channel: number, key: number, doubt: DoubtSet = plain): void {
    this.#up(at, channel, doubt, (line, seconds) => line.voices.keyUp(channel, key, seconds));
    if (this.#prepared.program.looseNoteOffs === true) this.#everyStrikeUp(at, channel, key);
  }

  /** Every key of the channel goes up; what that starts is under `doubt`. */
  keysUp(at: number, channel: number, doubt: DoubtSet): void {
    this.#up(at, channel, doubt, (line, seconds) => line.voices.keysUp(channel, seconds));
  }

  /** A controller message, for the pedals: the voices that they let go. */
  controller(at: number, channel: number, number: number, value: number): readonly Freed[] {
    if (!this.#prepared.follows) return noneFreed;
    const freed: Freed[] = [];
    // One state for all channels of the copy: its pedal holds them all.
    const shared = this.#lines.length === 1;
    for (const line of this.#linesOf(channel)) {
      for (const move of line.pedals.take(number, value)) {
        const { pedal, down } = move;
        const channels = shared ? everyChannel : [channel];
        line.letGo.move(
          { ...move, at, channel: shared ? null : channel },
          () => line.voices.caught,
        );
        for (const one of channels) {
          for (const voice of line.voices[pedal](one, down, this.#seconds(at))) {
            line.tick.borders(voice);
            freed.push({ voice, line });
          }
        }
      }
    }
    return freed;
  }

  /** Starts what follows voices that pedals have let go. */
  release(at: number, freed: readonly Freed[]): void {
    for (const { voice, line } of freed) this.#startRelease(at, voice, plain, line);
  }

  /** A signal has been set: what its change starts. */
  change(at: number, channel: number, signal: number, value: number, key: number): void {
    const { changes, bands, fading } = this.#prepared;
    const holds = changes.get(signal);
    if (holds === undefined) return;
    const own = { channel, key: bands[signal]!.lowest(value), velocity: key };
    const scope = this.#of(channel, this.#scopes);
    if (fading.length === 0) {
      this.#recorder.record('change', at, scope, own, plain, anyHold, signal, null);
      return;
    }
    for (const line of this.#linesOf(channel)) {
      if (!line.isPlain || !holds.has(line.number)) continue;
      const sound = this.#sound('change', at, own, plain, line.hold, signal);
      this.#startReleased(at, line, sound, plain, !line.oneShot);
      this.#recorder.record('change', at, scope, own, plain, line.hold, signal, sound);
    }
  }

  /** What sounds goes through every value between the old and the new one of changed signals. */
  pass(at: number, channel: number, changed: readonly number[]): void {
    const { fading } = this.#prepared;
    if (!changed.some((signal) => fading.includes(signal))) return;
    const scope = this.#of(channel, this.#scopes);
    const seconds = this.#seconds(at);
    this.#now = seconds;
    const moments = this.#moments.passing(changed, scope);
    for (const line of this.#linesOf(channel)) {
      for (const voice of line.voices.over(seconds)) this.#end(voice);
      line.voices.pass(moments, seconds);
      line.tick.pass(fading, changed);
    }
  }

  endTick(): void {
    const { fading, follows } = this.#prepared;
    if (!follows) return;
    for (const line of this.#lines.flat()) {
      line.letGo.end(
        (channel) => line.voices.sustains(channel),
        (one, fate) => {
          this.#letGoInAnotherOrder(line, one, fate);
        },
      );
    }
    if (fading.length === 0) return;
    this.#lines.forEach((lines, i) => {
      const within = (by: Sound | null): readonly (readonly Choice[])[] =>
        fading.map((signal) =>
          this.#scopes[i]!.withinTick(signal, by?.signal === signal ? by.key : null),
        );
      for (const line of lines) {
        line.tick.end(
          within,
          (moments) => line.voices.pass(moments, this.#now),
          (voice, moment) => line.voices.live(voice, moment),
        );
      }
    });
  }

  /** The cue is over: what still sounds ends, and what only a pedal or a key held is released. */
  endCue(): void {
    const last = this.#stream.length - 1;
    this.#isOver = true;
    for (const line of this.#lines.flat()) {
      for (const voice of line.voices.end()) {
        this.#end(voice);
        if (voice.phase === 'released') continue;
        const { sound } = voice;
        // All keys go up in the end.
        if (voice.phase === 'key' && this.#lifting.has(line)) this.#noteOff(last, sound, pedalHeld);
        this.#startRelease(last, voice, pedalHeld, line);
      }
    }
  }

  #of<T>(channel: number, list: readonly T[]): T {
    return list[list.length === 1 ? 0 : channel]!;
  }

  #linesOf(channel: number): readonly HeldVoices[] {
    return this.#of(channel, this.#lines);
  }

  #seconds(at: number): number {
    return this.#clock.secondsAt(this.#stream.tick[at] ?? 0);
  }

  #up(
    at: number,
    channel: number,
    doubt: DoubtSet,
    lift: (line: HeldVoices, seconds: number) => readonly Voice[],
  ): void {
    if (!this.#prepared.follows) return;
    const seconds = this.#seconds(at);
    for (const line of this.#linesOf(channel)) {
      if (line.isAside) continue;
      const lifted = lift(line, seconds);
      const hasPress = lifted.some(({ sound }) => !sound.isFurther);
      for (const voice of lifted) {
        const { isFurther, key, pressed } = voice.sound;
        // What was started again says nothing that the press of the same key does not.
        const isNew = !isFurther || !hasPress || key !== pressed;
        if (isNew && this.#lifting.has(line)) this.#noteOff(at, voice.sound, doubt);
        if (this.#prepared.program.looseNoteOffs === true) {
          line.letGo.letGo({ voice, at, isNew, caught: line.letGo.isCaught(voice), doubt });
        }
        // Should only a pedal hold it, and not do so after all, it ends here too.
        line.tick.borders(voice);
        if (voice.phase === 'released' && isNew) this.#startRelease(at, voice, doubt, line);
      }
    }
  }

  /** For some engines a note-off lets go every strike of its key that is left. */
  #everyStrikeUp(at: number, channel: number, key: number): void {
    for (const line of [...this.#linesOf(channel)]) {
      if (line.isAside) continue;
      const left = line.voices.down(channel, key).filter(({ isLetGo }) => !isLetGo);
      const hasPress = left.some(({ sound }) => !sound.isFurther);
      for (const voice of left) {
        voice.isLetGo = true;
        const { isFurther, pressed } = voice.sound;
        const isNew = !isFurther || !hasPress || voice.sound.key !== pressed;
        if (isNew && this.#lifting.has(line)) this.#noteOff(at, voice.sound, engine);
        const fate = voice.sostenuto
          ? 'caught'
          : line.voices.sustains(channel)
            ? 'held'
            : 'released';
        const caught = line.letGo.isCaught(voice);
        const one: LetGo = { voice, at, isNew, caught, doubt: plain };
        const aside = this.#aside(line, engine);
        aside.letGo.letGo({ ...one, voice: this.#letGoAside(aside, one, fate) });
      }
    }
  }

  /** Had pedal and note-off come in another order on their tick. */
  #letGoInAnotherOrder(line: HeldVoices, one: LetGo, fate: Fate): void {
    this.#letGoAside(this.#aside(line, order), one, fate);
  }

  /** Lets a voice go in another way, beside what it goes through otherwise. */
  #letGoAside(line: HeldVoices, { voice, at, isNew, doubt }: LetGo, fate: Fate): Voice {
    const { sound, lives } = voice;
    const aside = voiceOf(sound, lives);
    if (lives) sound.open++;
    if (fate === 'released') {
      aside.phase = 'released';
      aside.releasedAt = this.#seconds(at);
      line.voices.startReleased(aside);
    } else {
      aside.phase = 'pedal';
      aside.sostenuto = fate === 'caught';
      line.voices.start(aside);
    }
    line.tick.borders(aside);
    if (fate === 'released' && isNew) this.#startRelease(at, aside, doubt, line);
    return aside;
  }

  /** The line beside another one that adds a doubt, made when it is first asked for. */
  #aside(line: HeldVoices, doubt: DoubtSet): HeldVoices {
    let aside = line.asides.get(doubt);
    if (aside === undefined) {
      line.asides.set(doubt, (aside = asideOf(line, doubt)));
      this.#lines.find((lines) => lines.includes(line))!.push(aside);
    }
    return aside;
  }

  #noteOff(at: number, from: Sound, doubt: DoubtSet): void {
    const { listens, noteOffHolds, fading } = this.#prepared;
    this.#cutOthers(at, from, doubt | from.doubt);
    if (!listens.has('note-off')) return;
    const all = doubt | from.doubt;
    if (fading.length === 0) {
      this.#record('note-off', at, from, all, anyHold, null);
      return;
    }
    for (const line of this.#linesOf(from.channel)) {
      if (line.isPlain && noteOffHolds.has(line.number)) {
        this.#start('note-off', at, from, all, line);
      }
    }
  }

  #startRelease(at: number, voice: Voice, doubt: DoubtSet, line: HeldVoices): void {
    const all = doubt | line.doubt | voice.sound.doubt;
    this.#start('release', at, voice.sound, all, line);
    this.#cutOthers(at, voice.sound, all);
  }

  /** What a release starts may cut what still sounds. */
  #cutOthers(at: number, by: Sound, doubt: DoubtSet): void {
    if (this.#prepared.program.releasesCut !== true) return;
    for (const line of this.#linesOf(by.channel)) {
      if (!line.waits) continue;
      for (const sound of line.voices.held) {
        if (sound !== by) this.#start('cut', at, sound, doubt | line.doubt | sound.doubt, line);
      }
    }
  }

  /** Starts what a voice that has sounded leaves behind. */
  #start(event: StartEvent, at: number, from: Sound, doubt: DoubtSet, line: HeldVoices): void {
    if (!this.#prepared.listens.has(event)) return;
    let started: Sound | null = null;
    if (this.#prepared.fading.length > 0) {
      started = this.#sound(event, at, from, doubt, line.hold, -1);
      const after = line.oneShot ? plain : tail;
      if (!this.#isOver) this.#startReleased(at, line, started, after, false);
    }
    this.#record(event, at, from, doubt, line.hold, started);
  }

  #record(
    event: StartEvent,
    at: number,
    own: HeldKey,
    doubt: DoubtSet,
    hold: number,
    sound: Sound | null,
  ): void {
    const scope = this.#of(own.channel, this.#scopes);
    this.#recorder.record(event, at, scope, own, doubt, hold, -1, sound);
  }

  #startReleased(
    at: number,
    line: HeldVoices,
    sound: Sound,
    after: DoubtSet,
    endless: boolean,
  ): void {
    const voice = voiceOf(sound, true, after, endless);
    voice.phase = 'released';
    voice.releasedAt = at < 0 ? 0 : this.#seconds(at);
    sound.open++;
    line.voices.startReleased(voice);
    line.tick.borders(voice);
  }

  #end({ sound, lives }: Voice): void {
    if (!lives || --sound.open > 0) return;
    this.#recorder.endSound(sound);
  }

  #sound(
    startedBy: StartEvent,
    at: number,
    { channel, key, velocity }: HeldKey,
    doubt: DoubtSet,
    hold: number,
    signal: number,
    pressed: number | null = null,
  ): Sound {
    const { tick, track, event } = this.#stream;
    return {
      startedBy,
      signal,
      hold,
      channel,
      key,
      velocity,
      pressed: pressed ?? key,
      isFurther: pressed !== null,
      at,
      track: track[at]!,
      tick: tick[at]!,
      event: event[at]!,
      doubt,
      life: new Life(),
      state: -1,
      open: 0,
    };
  }
}

const voiceOf = (sound: Sound, lives: boolean, after: DoubtSet = tail, endless = false): Voice => ({
  sound,
  lives,
  tail: after,
  endless,
  underPedal: 0,
  phase: 'key',
  sostenuto: false,
  isLetGo: false,
  releasedAt: 0,
});
