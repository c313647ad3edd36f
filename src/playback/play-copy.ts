import { selects } from '../instruments/switches.ts';
import type { Program } from '../instruments/program.ts';
import { clock, type Clock } from '../midi/timeline.ts';
import { controllers, isDown } from '../terms/controllers.ts';
import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import { AlternativesTable } from './alternatives.ts';
import { choicesOf } from './choices.ts';
import { controllerRanges } from './controller-ranges.ts';
import { sysexStatus, type CopyStream } from './copy-stream.ts';
import type { HeldKey } from './held-keys.ts';
import { LooseKeys } from './loose-keys.ts';
import { PatchSignal } from './patch-signal.ts';
import { prepare, type PreparedProgram } from './prepared-program.ts';
import { Scope } from './scope.ts';
import { StartRecorder } from './start-recorder.ts';
import { systemMessage } from './system-message.ts';
import { tuningMessage } from './tuning-message.ts';
import { Tuning } from './tuning.ts';
import { VoiceFollower } from './voice-follower.ts';
import { anyHold, type CopyUsage } from './zone-usage.ts';

const engine = doubtSet('engine');

/** What the user says of the session, beside the cues. */
export interface PlayOptions {
  /** Seconds by which a switch and a note may have been moved against each other; 0: none. */
  readonly slack: number;
  /** Steps by which controllers will be widened for headroom. */
  readonly controllerRoom: number;
  /** Other steps that may be asked for: no more and no less room than one of these is told exactly. */
  readonly furtherRooms?: readonly number[];
  /** Keep every place of a class, not the first three. */
  readonly everyPlace?: true;
}

export const asExported: PlayOptions = { slack: 0, controllerRoom: 0 };

/** Plays the events of one copy through the program of its instrument. */
export const playCopy = (
  program: Program,
  stream: CopyStream,
  options: PlayOptions,
): Omit<CopyUsage, 'instrument' | 'articulation' | 'printed'> =>
  new CopyPlayer(program, stream, options).play();

class CopyPlayer {
  readonly #prepared: PreparedProgram;
  readonly #stream: CopyStream;
  readonly #table = new AlternativesTable();
  readonly #patch: PatchSignal | null;
  readonly #scopes: readonly Scope[];
  readonly #recorder: StartRecorder;
  readonly #follower: VoiceFollower;
  readonly #tuning = new Tuning();
  /** Some channel plays one note at a time somewhere: held keys have to be kept account of. */
  readonly #goesBack: boolean;
  /** Channels that play one note at a time: by the legato pedal, or by mono mode. */
  readonly #legato = new Set<number>();
  readonly #mono = new Set<number>();
  readonly #loose = new LooseKeys();
  /** Scopes that the current tick has changed. */
  readonly #touched: Scope[] = [];
  /** False where a route ties the copy to one articulation. */
  readonly #followsPatch: boolean;
  readonly #slack: number;
  readonly #clock: Clock;

  constructor(
    program: Program,
    stream: CopyStream,
    { slack, controllerRoom, furtherRooms = [], everyPlace }: PlayOptions,
  ) {
    const prepared = prepare(program, [controllerRoom, ...furtherRooms]);
    const { bands, patch } = prepared;
    this.#prepared = prepared;
    this.#stream = stream;
    this.#followsPatch = program.gates.some((gate) => gate.some(({ signal }) => signal === patch));
    this.#slack = program.signals.some(selects) ? slack : 0;
    this.#clock = clock(stream.timeline);
    const obedience = stream.sysex.some(({ data }) => systemMessage(data) !== null);
    this.#patch =
      patch < 0 ? null : new PatchSignal(this.#table, bands[patch]!, obedience, this.#slack);
    this.#goesBack = program.retriggers && hasOneNoteModes(stream);
    const onTouch = (scope: Scope): void => {
      this.#touched.push(scope);
    };
    this.#scopes = Array.from(
      { length: program.scope === 'channel' ? 16 : 1 },
      () =>
        new Scope(program, bands, this.#table, this.#patch, this.#goesBack, this.#slack, onTouch),
    );
    this.#recorder = new StartRecorder(prepared, stream, this.#slack, everyPlace === true);
    this.#follower = new VoiceFollower(prepared, stream, this.#recorder, this.#scopes);
  }

  play(): Omit<CopyUsage, 'instrument' | 'articulation' | 'printed'> {
    const { tick, status, length, copy, damaged, notes, lost } = this.#stream;
    for (let from = 0; from < length;) {
      if (this.#slack > 0) this.#recorder.settle(this.#seconds(from));
      let to = from;
      let calm = this.#prepared.keysAreInert && this.#slack === 0;
      for (; to < length && tick[to] === tick[from]; to++) calm &&= status[to]! < 0xa0;
      this.#recorder.beginTick(calm);
      if (this.#prepared.readsTime) this.#arrive(this.#seconds(from));
      for (let at = from; at < to; at++) this.#event(at);
      if (!calm) this.#endTick(from);
      from = to;
    }
    this.#follower.endCue();
    this.#endTick(length - 1);
    this.#recorder.settle(Infinity);
    return {
      copy,
      notes,
      lostNotes: lost.length,
      alternatives: this.#table.all.map(({ list }) => list),
      ...this.#recorder.usage(),
      chosen: choicesOf(this.#prepared.program, this.#scopes, this.#patch),
      controllers: controllerRanges(this.#prepared.program, this.#stream),
      damaged,
    };
  }

  #event(at: number): void {
    const status = this.#stream.status[at]!;
    const channel = status & 0x0f;
    const data1 = this.#stream.data1[at]!;
    const data2 = this.#stream.data2[at]!;
    if (status === sysexStatus) this.#sysex(this.#stream.event[at]!);
    else if (status < 0x90 || (status < 0xa0 && data2 === 0)) this.#noteOff(at, channel, data1);
    else if (status < 0xa0) this.#noteOn(at, channel, data1, data2);
    else if (status < 0xb0) this.#polyPressure(at, channel, data1, data2);
    else if (status < 0xc0) this.#controller(at, channel, data1, data2);
    else if (status < 0xd0) this.#programChange(channel, data1);
    else if (status < 0xe0) this.#signal(at, channel, 'pressure', data1);
    else this.#signal(at, channel, 'bend', data2 * 128 + data1 - 8192);
  }

  #scope(channel: number): Scope {
    return this.#scopes[this.#scopes.length === 1 ? 0 : channel]!;
  }

  #noteOn(at: number, channel: number, key: number, velocity: number): void {
    const scope = this.#scope(channel);
    scope.press(channel, key, velocity);
    if (this.#goesBack) this.#loose.strike({ channel, key, velocity });
    this.#follower.interrupt(at, channel, key);
    if (!this.#recorder.recordKnown(at, scope, channel, key, velocity)) {
      this.#startNote(at, scope, { channel, key, velocity }, plain, null);
    }
    if (!this.#tuning.isNeutral) this.#startTuned(at, scope, { channel, key, velocity });
    scope.afterNote(key, velocity, at);
  }

  /** Coarse tuning moves melodic parts only (General MIDI 2, channel coarse tuning). */
  #startTuned(at: number, scope: Scope, own: HeldKey): void {
    if (this.#followsPatch && this.#patch?.isDrums(own.channel) === true) return;
    for (const key of this.#tuning.otherKeys(own.channel, own.key)) {
      this.#startNote(at, scope, { ...own, key }, engine, own.key);
    }
  }

  /** @param pressed the key behind it, where it is none of a press; else null */
  #startNote(
    at: number,
    scope: Scope,
    own: HeldKey,
    doubt: DoubtSet,
    pressed: number | null,
  ): void {
    const sound = this.#follower.strike(at, own, doubt, pressed);
    this.#recorder.record('note-on', at, scope, own, doubt, anyHold, -1, sound);
  }

  #noteOff(at: number, channel: number, key: number): void {
    const scope = this.#scope(channel);
    if (this.#goesBack) this.#liftAndGoBack(at, scope, channel, key);
    else scope.lift(channel, key);
    this.#follower.keyUp(at, channel, key);
  }

  /** A player of one note at a time goes back to the key it was on before (MIDI 1.0, mono mode). */
  #liftAndGoBack(at: number, scope: Scope, channel: number, key: number): void {
    const playsOne = this.#legato.has(channel) || this.#mono.has(channel);
    const wasLatest = scope.held.latest(channel)?.key === key;
    scope.lift(channel, key);
    const back = wasLatest ? scope.held.latest(channel) : null;
    if (back !== null && playsOne) this.#startAgain(at, scope, back, plain);
    const loose = this.#loose.lift(channel, key);
    if (loose !== null && (playsOne || this.#loose.isMono(channel))) {
      this.#startAgain(at, scope, loose, engine);
    }
  }

  #startAgain(at: number, scope: Scope, held: HeldKey, doubt: DoubtSet): void {
    this.#startNote(at, scope, held, doubt, held.key);
    if (!this.#tuning.isNeutral) this.#startTuned(at, scope, held);
  }

  #controller(at: number, channel: number, number: number, value: number): void {
    const scope = this.#scope(channel);
    const freed = this.#follower.controller(at, channel, number, value);
    this.#tuning.controller(channel, number, value);
    const changed = scope.setController(number, value);
    this.#moved(at, channel, changed, value);
    switch (number) {
      case controllers.bankSelectMsb:
        this.#patch?.bankSelect(channel, 'msb', value);
        break;
      case controllers.bankSelectLsb:
        this.#patch?.bankSelect(channel, 'lsb', value);
        break;
      case controllers.legato:
        setMember(this.#legato, channel, isDown(value));
        break;
      case controllers.monoOn:
      case controllers.polyOn:
        setMember(this.#mono, channel, number === controllers.monoOn);
        if (number === controllers.monoOn) this.#loose.monoOn(channel, value);
        this.#allNotesOff(at, channel, plain);
        break;
      case controllers.allSoundOff:
        this.#allNotesOff(at, channel, engine);
        break;
      case controllers.allNotesOff:
      case controllers.omniOff:
      case controllers.omniOn:
        this.#allNotesOff(at, channel, plain);
        break;
      case controllers.resetAllControllers:
        this.#resetControllers(at, channel);
        break;
    }
    // What a pedal lets go ends before the message, and what that starts comes after it.
    this.#follower.release(at, freed);
  }

  #resetControllers(at: number, channel: number): void {
    const changed = this.#scope(channel).resetControllers();
    this.#follower.pass(at, channel, changed);
    this.#legato.delete(channel);
    this.#tuning.deselect(channel);
  }

  /** @param doubt of what starts then: all sound off leaves nothing to be released, for some */
  #allNotesOff(at: number, channel: number, doubt: DoubtSet): void {
    this.#scope(channel).clear(channel);
    this.#follower.keysUp(at, channel, doubt);
  }

  /** Signals have been set by a message. */
  #moved(at: number, channel: number, changed: readonly number[], value: number, key = 0): void {
    this.#follower.pass(at, channel, changed);
    for (const signal of changed) this.#follower.change(at, channel, signal, value, key);
  }

  #polyPressure(at: number, channel: number, key: number, value: number): void {
    const changed = this.#scope(channel).setPolyPressure(key, value);
    this.#moved(at, channel, changed, value, key);
  }

  #programChange(channel: number, program: number): void {
    this.#scope(channel).set(({ kind }) => kind === 'program', program);
    this.#patch?.programChange(channel, program);
    if (this.#patch !== null) this.#scope(channel).patchChanged();
  }

  #signal(at: number, channel: number, kind: 'bend' | 'pressure', value: number): void {
    const changed = this.#scope(channel).set((signal) => signal.kind === kind, value);
    this.#moved(at, channel, changed, value);
  }

  #sysex(index: number): void {
    const { data } = this.#stream.sysex[index]!;
    const tuning = tuningMessage(data);
    if (tuning !== null) this.#tuning.take(tuning);
    const message = systemMessage(data);
    if (message === null) return;
    if (message.kind === 'master-coarse-tuning') this.#tuning.setMaster(message.semitones);
    if (this.#patch === null) return;
    const reset = this.#patch.take(message);
    for (const scope of this.#scopes) scope.patchChanged();
    if (!reset) return;
    this.#tuning.reset();
    this.#legato.clear();
    this.#mono.clear();
    this.#loose.reset();
    this.#scopes.forEach((scope, channel) => {
      scope.clear(channel);
      scope.systemReset();
    });
  }

  /** @param at an event of the tick */
  #endTick(at: number): void {
    const seconds = this.#slack > 0 ? this.#seconds(at) : 0;
    this.#patch?.completeTick();
    this.#follower.endTick();
    this.#recorder.endTick(seconds);
    this.#patch?.endTick(seconds);
    for (const scope of this.#touched) scope.endTick(seconds);
    this.#touched.length = 0;
  }

  #arrive(seconds: number): void {
    for (const scope of this.#scopes) scope.arrive(seconds);
  }

  #seconds(at: number): number {
    return this.#clock.secondsAt(this.#stream.tick[at] ?? 0);
  }
}

/** A legato pedal goes down, or mono mode is asked for. */
const hasOneNoteModes = ({ length, status, data1, data2 }: CopyStream): boolean => {
  for (let at = 0; at < length; at++) {
    if (status[at]! >> 4 !== 0xb) continue;
    if (data1[at] === controllers.monoOn) return true;
    if (data1[at] === controllers.legato && isDown(data2[at]!)) return true;
  }
  return false;
};

const setMember = (set: Set<number>, member: number, isMember: boolean): void => {
  if (isMember) set.add(member);
  else set.delete(member);
};
