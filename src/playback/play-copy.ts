import type { Program, StartEvent } from '../instruments/program.ts';
import { tempoAt } from '../midi/tempo.ts';
import { clock, type Clock } from '../midi/timeline.ts';
import { controllers, isDown } from '../terms/controllers.ts';
import { doubtSet, plain, type DoubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import { AlternativesTable, type Alternatives } from './alternatives.ts';
import { ClassTable } from './class-table.ts';
import { sysexStatus, type CopyStream } from './copy-stream.ts';
import type { HeldKey } from './held-keys.ts';
import { firstMoments } from './first-moments.ts';
import { Life, LifeTable } from './lives.ts';
import { PatchSignal } from './patch-signal.ts';
import { prepare, type PreparedProgram } from './prepared-program.ts';
import { Scope, type Snapshot } from './scope.ts';
import { StateTable } from './state-table.ts';
import { systemMessage } from './system-message.ts';
import { Tuning } from './tuning.ts';
import { Voices, type Voice } from './voices.ts';
import type { Choice, CopyUsage } from './zone-usage.ts';

const engine = doubtSet('engine');
const pedalHeld = doubtSet('pedal-held');

/** Plays the events of one copy through the program of its instrument. */
export const playCopy = (instrument: string, program: Program, stream: CopyStream): CopyUsage =>
  new CopyPlayer(program, stream).play(instrument);

/** A start that waits for its tick to be over: only then is it known what it may have seen. */
interface Pending {
  readonly event: StartEvent;
  readonly scope: Scope;
  readonly snapshot: Snapshot;
  readonly own: HeldKey;
  readonly doubt: DoubtSet;
  /** Position in the stream of the event that proves it. */
  readonly at: number;
  readonly voice: Voice | null;
}

class CopyPlayer {
  readonly #prepared: PreparedProgram;
  readonly #stream: CopyStream;
  readonly #clock: Clock;
  readonly #table = new AlternativesTable();
  readonly #patch: PatchSignal | null;
  readonly #scopes: readonly Scope[];
  readonly #voices: readonly Voices[];
  readonly #states = new StateTable();
  readonly #lives = new LifeTable();
  readonly #classes = new ClassTable();
  readonly #tuning = new Tuning();
  /** Channels that play one note at a time: by the legato pedal, or by mono mode. */
  readonly #legato = new Set<number>();
  readonly #mono = new Set<number>();
  /** Scopes that the current tick has changed. */
  readonly #touched: Scope[] = [];
  #pending: Pending[] = [];
  /** The current tick holds nothing that could change what its notes see. */
  #calm = false;

  constructor(program: Program, stream: CopyStream) {
    const prepared = prepare(program);
    const { bands, patch, releases } = prepared;
    this.#prepared = prepared;
    this.#stream = stream;
    this.#clock = clock(stream.timeline);
    this.#patch = patch < 0 ? null : new PatchSignal(this.#table, bands[patch]!);
    const onTouch = (scope: Scope): void => {
      this.#touched.push(scope);
    };
    this.#scopes = Array.from(
      { length: program.scope === 'channel' ? 16 : 1 },
      () => new Scope(program, bands, this.#table, this.#patch, onTouch),
    );
    this.#voices = this.#scopes.map(() => new Voices(releases));
  }

  play(instrument: string): CopyUsage {
    const { tick, status, length } = this.#stream;
    for (let from = 0; from < length;) {
      let to = from;
      let calm = this.#prepared.keysAreInert;
      for (; to < length && tick[to] === tick[from]; to++) calm &&= status[to]! < 0xa0;
      this.#calm = calm;
      for (let at = from; at < to; at++) this.#event(at);
      if (!calm) this.#endTick();
      from = to;
    }
    if (this.#prepared.follows) this.#endCue();
    return {
      instrument,
      copy: this.#stream.copy,
      alternatives: this.#table.all.map(({ list }) => list),
      states: this.#states.all,
      lives: this.#lives.all,
      classes: this.#classes.classes(),
      chosen: this.#chosen(),
      damaged: this.#stream.damaged,
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
    else if (status < 0xb0) return;
    else if (status < 0xc0) this.#controller(at, channel, data1, data2);
    else if (status < 0xd0) this.#programChange(channel, data1);
    else if (status < 0xe0) this.#signal(at, channel, 'pressure', data1);
    else this.#signal(at, channel, 'bend', data2 * 128 + data1 - 8192);
  }

  #scope(channel: number): Scope {
    return this.#scopes[this.#scopes.length === 1 ? 0 : channel]!;
  }

  #voicesOf(channel: number): Voices {
    return this.#voices[this.#voices.length === 1 ? 0 : channel]!;
  }

  #seconds(at: number): number {
    return this.#clock.secondsAt(this.#stream.tick[at]!);
  }

  #noteOn(at: number, channel: number, key: number, velocity: number): void {
    const scope = this.#scope(channel);
    scope.press(channel, key, velocity);
    const state = this.#calm ? (scope.steady?.state ?? -1) : -1;
    if (state >= 0) this.#add('note-on', channel, key, velocity, state, -1, plain, at);
    else this.#startNote(at, scope, { channel, key, velocity }, plain);
    if (!this.#tuning.isNeutral) this.#startTuned(at, scope, { channel, key, velocity });
    scope.afterNote(key, velocity, at);
  }

  /** Coarse tuning moves melodic parts only (General MIDI 2, channel coarse tuning). */
  #startTuned(at: number, scope: Scope, own: HeldKey): void {
    if (this.#patch?.isDrums(own.channel) === true) return;
    for (const key of this.#tuning.otherKeys(own.channel, own.key)) {
      this.#startNote(at, scope, { ...own, key }, engine);
    }
  }

  #startNote(at: number, scope: Scope, own: HeldKey, doubt: DoubtSet): void {
    const { tick, track, event } = this.#stream;
    let voice: Voice | null = null;
    if (this.#prepared.follows) {
      voice = {
        ...own,
        doubt,
        track: track[at]!,
        tick: tick[at]!,
        event: event[at]!,
        state: -1,
        life: new Life(),
        underPedal: [],
        phase: 'key',
        sostenuto: false,
        releasedAt: 0,
      };
      this.#voicesOf(own.channel).start(voice);
    }
    this.#pend('note-on', at, scope, own, doubt, voice);
  }

  #noteOff(at: number, channel: number, key: number): void {
    const scope = this.#scope(channel);
    if (this.#playsOneNote(channel)) this.#liftAndGoBack(at, scope, channel, key);
    else scope.lift(channel, key);
    if (!this.#prepared.follows) return;
    const voice = this.#voicesOf(channel).keyUp(channel, key, this.#seconds(at));
    if (voice !== null) this.#keyWentUp(at, voice);
  }

  #playsOneNote(channel: number): boolean {
    if (!this.#prepared.program.retriggers) return false;
    return this.#legato.has(channel) || this.#mono.has(channel);
  }

  /** A player of one note at a time goes back to the key it was on before (MIDI 1.0, mono mode). */
  #liftAndGoBack(at: number, scope: Scope, channel: number, key: number): void {
    const wasLatest = scope.held.latest(channel)?.key === key;
    scope.lift(channel, key);
    const back = wasLatest ? scope.held.latest(channel) : null;
    if (back === null) return;
    this.#startNote(at, scope, back, plain);
    if (!this.#tuning.isNeutral) this.#startTuned(at, scope, back);
  }

  #keyWentUp(at: number, voice: Voice): void {
    this.#releaseStart('note-off', at, voice, plain);
    if (voice.phase === 'released') this.#releaseStart('release', at, voice, plain);
  }

  #releaseStart(event: StartEvent, at: number, voice: Voice, doubt: DoubtSet): void {
    if (!this.#prepared.listens.has(event)) return;
    this.#pend(event, at, this.#scope(voice.channel), voice, doubt | voice.doubt, null);
  }

  #controller(at: number, channel: number, number: number, value: number): void {
    const scope = this.#scope(channel);
    const voices = this.#voicesOf(channel);
    this.#tuning.controller(channel, number, value);
    const changed = scope.set(
      (signal) => signal.kind === 'controller' && signal.number === number,
      value,
    );
    this.#pass(at, scope, voices, changed);
    let released: readonly Voice[] = [];
    switch (number) {
      case controllers.bankSelectMsb:
        this.#patch?.bankSelect(channel, 'msb', value);
        break;
      case controllers.bankSelectLsb:
        this.#patch?.bankSelect(channel, 'lsb', value);
        break;
      case controllers.sustain:
        if (this.#prepared.follows)
          released = voices.sustain(channel, isDown(value), this.#seconds(at));
        break;
      case controllers.sostenuto:
        if (this.#prepared.follows)
          released = voices.sostenuto(channel, isDown(value), this.#seconds(at));
        break;
      case controllers.legato:
        setMember(this.#legato, channel, isDown(value));
        break;
      case controllers.monoOn:
      case controllers.polyOn:
        setMember(this.#mono, channel, number === controllers.monoOn);
        this.#allNotesOff(at, channel);
        break;
      case controllers.allSoundOff:
      case controllers.allNotesOff:
      case controllers.omniOff:
      case controllers.omniOn:
        this.#allNotesOff(at, channel);
        break;
      case controllers.resetAllControllers:
        scope.resetControllers();
        this.#legato.delete(channel);
        this.#tuning.deselect(channel);
        if (this.#prepared.follows) {
          const seconds = this.#seconds(at);
          released = [
            ...voices.sustain(channel, false, seconds),
            ...voices.sostenuto(channel, false, seconds),
          ];
        }
        break;
    }
    for (const voice of released) this.#releaseStart('release', at, voice, plain);
  }

  #allNotesOff(at: number, channel: number): void {
    this.#scope(channel).clear(channel);
    if (!this.#prepared.follows) return;
    const voices = this.#voicesOf(channel).keysUp(channel, this.#seconds(at));
    for (const voice of voices) this.#keyWentUp(at, voice);
  }

  #programChange(channel: number, program: number): void {
    this.#scope(channel).set(({ kind }) => kind === 'program', program);
    this.#patch?.programChange(channel, program);
    if (this.#patch !== null) this.#scope(channel).patchChanged();
  }

  #signal(at: number, channel: number, kind: 'bend' | 'pressure', value: number): void {
    const scope = this.#scope(channel);
    const changed = scope.set((signal) => signal.kind === kind, value);
    this.#pass(at, scope, this.#voicesOf(channel), changed);
  }

  #sysex(index: number): void {
    const message = systemMessage(this.#stream.sysex[index]!.data);
    if (message === null) return;
    if (message.kind === 'master-coarse-tuning') this.#tuning.setMaster(message.semitones);
    if (this.#patch === null) return;
    const reset = this.#patch.take(message);
    for (const scope of this.#scopes) scope.patchChanged();
    if (!reset) return;
    this.#tuning.reset();
    this.#legato.clear();
    this.#mono.clear();
    this.#scopes.forEach((scope, channel) => {
      scope.clear(channel);
      scope.systemReset();
    });
  }

  /** What sounds goes through every value between the old and the new one. */
  #pass(at: number, scope: Scope, voices: Voices, changed: readonly number[]): void {
    if (
      this.#prepared.fading.length === 0 ||
      !changed.some((signal) => this.#prepared.fading.includes(signal))
    )
      return;
    const seconds = this.#seconds(at);
    for (const voice of voices.over(seconds)) this.#count(voice);
    const ranges = this.#prepared.fading.map((signal): Range => {
      const value = scope.plainValue(signal);
      if (!changed.includes(signal)) return [value, value];
      const from = scope.previousValue(signal);
      return [Math.min(from, value), Math.max(from, value)];
    });
    voices.pass(ranges, seconds);
  }

  #pend(
    event: StartEvent,
    at: number,
    scope: Scope,
    own: HeldKey,
    doubt: DoubtSet,
    voice: Voice | null,
  ): void {
    const tempo = Math.floor(tempoAt(this.#stream.timeline, this.#stream.tick[at]!));
    const start = { event, scope, snapshot: scope.now(own, tempo), own, doubt, at, voice };
    if (this.#calm) this.#look(start);
    else this.#pending.push(start);
  }

  #endTick(): void {
    this.#patch?.completeTick();
    if (this.#pending.length > 0) {
      for (const start of this.#pending) this.#look(start);
      this.#pending = [];
    }
    this.#patch?.endTick();
    for (const scope of this.#touched) scope.endTick();
    this.#touched.length = 0;
  }

  /** A start, once its tick is over. */
  #look({ event, scope, snapshot, own, doubt, at, voice }: Pending): void {
    let state = scope.touched ? -1 : snapshot.state;
    let seen: readonly Alternatives[] | null = null;
    if (state < 0) {
      seen = scope.seen(snapshot, own, at);
      state = this.#states.indexOf(seen);
      if (!scope.touched) snapshot.state = state;
    }
    if (voice !== null) voice.state = state;
    let life = -1;
    if (this.#prepared.fading.length > 0) {
      const moments = firstMoments(
        this.#prepared.fading,
        seen ?? scope.seen(snapshot, own, at),
        (signal) => scope.previousValue(signal),
      );
      if (voice !== null) {
        for (const moment of moments) voice.life.add(moment);
        return;
      }
      life = this.#lives.indexOf(moments);
    }
    this.#add(event, own.channel, own.key, own.velocity, state, life, doubt, at);
  }

  #add(
    event: StartEvent,
    channel: number,
    key: number,
    velocity: number,
    state: number,
    life: number,
    doubt: DoubtSet,
    at: number,
  ): void {
    const { track, tick, event: position } = this.#stream;
    this.#classes.add(
      event,
      channel,
      key,
      velocity,
      state,
      life,
      doubt,
      track[at]!,
      tick[at]!,
      position[at]!,
    );
  }

  /** A voice whose life is over, where fades make its class depend on it. */
  #count(voice: Voice): void {
    if (this.#prepared.fading.length === 0) return;
    const { channel, key, velocity, state, doubt, track, tick, event } = voice;
    const life = this.#lives.indexOf(voice.life.moments);
    this.#classes.add('note-on', channel, key, velocity, state, life, doubt, track, tick, event);
  }

  #endCue(): void {
    const last = this.#stream.length - 1;
    for (const voices of this.#voices) {
      const { left, underPedal } = voices.end();
      for (const voice of left) this.#count(voice);
      for (const voice of underPedal) this.#releaseStart('release', last, voice, pedalHeld);
      for (const voice of left) {
        if (voice.phase === 'key') this.#releaseStart('release', last, voice, pedalHeld);
      }
    }
    this.#endTick();
  }

  #chosen(): readonly Choice[] {
    const choices: Choice[] = [];
    this.#prepared.program.signals.forEach((signal, index) => {
      if (signal.kind !== 'patch' && signal.kind !== 'program' && signal.kind !== 'switch') return;
      for (let channel = 0; channel < 16; channel++) {
        const shared = this.#scopes.length === 1 && signal.kind !== 'patch';
        if (shared && channel > 0) break;
        const values =
          signal.kind === 'patch'
            ? this.#patch!.chosen(channel)
            : this.#scope(channel).chosen(index);
        if (values.length > 0) {
          choices.push({ signal: index, channel: shared ? -1 : channel, values });
        }
      }
    });
    return choices;
  }
}

const setMember = (set: Set<number>, member: number, isMember: boolean): void => {
  if (isMember) set.add(member);
  else set.delete(member);
};
