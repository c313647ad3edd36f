import type { StartEvent } from '../instruments/program.ts';
import { tempoAt } from '../midi/tempo.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { Alternatives } from './alternatives.ts';
import { ClassTable } from './class-table.ts';
import type { CopyStream } from './copy-stream.ts';
import type { HeldKey } from './held-keys.ts';
import { LifeTable } from './lives.ts';
import { MomentTable } from './moment-table.ts';
import type { PreparedProgram } from './prepared-program.ts';
import type { Scope, Snapshot } from './scope.ts';
import { StateTable } from './state-table.ts';
import type { Sound } from './sound.ts';
import { anyHold, type CopyUsage, type Moment } from './zone-usage.ts';

/** A start that waits for its tick to be over: only then is it known what it may have seen. */
interface Pending {
  readonly event: StartEvent;
  readonly scope: Scope;
  readonly snapshot: Snapshot;
  readonly own: HeldKey;
  readonly doubt: DoubtSet;
  /** Position in the stream of the event that proves it. */
  readonly at: number;
  /** The hold that its starts must have, or `anyHold`. */
  readonly hold: number;
  /** The signal that was set, for a change; else -1. */
  readonly signal: number;
  readonly sound: Sound | null;
}

/** A start whose tick is over and whose switches may still be moved to it (`slack`). */
interface Waiting {
  readonly start: Pending;
  readonly seen: readonly Alternatives[];
  readonly life: number;
  readonly seconds: number;
}

/** Sorts the starts of one copy into classes. */
export class StartRecorder {
  readonly #prepared: PreparedProgram;
  readonly #stream: CopyStream;
  readonly #states = new StateTable();
  readonly #lives = new LifeTable();
  readonly #classes: ClassTable;
  readonly #moments: MomentTable;
  #pending: Pending[] = [];
  readonly #waiting: Waiting[] = [];
  readonly #slack: number;
  /** The current tick holds nothing that could change what its notes see: they need not wait. */
  #calm = false;

  /**
   * @param slack seconds for which starts wait for switches that come late; 0: none
   * @param everyPlace classes keep all their places, not the first three
   */
  constructor(prepared: PreparedProgram, stream: CopyStream, slack: number, everyPlace: boolean) {
    this.#classes = new ClassTable(everyPlace ? Infinity : undefined);
    this.#slack = slack;
    this.#prepared = prepared;
    this.#moments = new MomentTable(prepared.fading);
    this.#stream = stream;
  }

  beginTick(calm: boolean): void {
    this.#calm = calm;
  }

  /** Records a note of a calm tick whose state is known already; false when it is not. */
  recordKnown(at: number, scope: Scope, channel: number, key: number, velocity: number): boolean {
    const state = this.#calm ? (scope.steady?.state ?? -1) : -1;
    if (state < 0) return false;
    const { track, tick, event } = this.#stream;
    const [line, when, position] = [track[at]!, tick[at]!, event[at]!];
    this.#classes.add(
      'note-on',
      anyHold,
      -1,
      channel,
      key,
      velocity,
      state,
      -1,
      0,
      line,
      when,
      position,
    );
    return true;
  }

  /**
   * Records a start.
   *
   * @param at position in the stream of the event that proves it
   * @param hold what its starts must be held by, or `anyHold`
   * @param signal the one that was set, for a change; else -1
   * @param sound followed to its end where fades depend on what happens meanwhile
   */
  record(
    event: StartEvent,
    at: number,
    scope: Scope,
    own: HeldKey,
    doubt: DoubtSet,
    hold: number,
    signal: number,
    sound: Sound | null,
  ): void {
    const { timeline, tick } = this.#stream;
    const tempo = this.#prepared.readsTempo
      ? Math.round(1_000_000 * tempoAt(timeline, tick[at] ?? 0))
      : 0;
    const snapshot = scope.now(own, tempo);
    const start = { event, scope, snapshot, own, doubt, at, hold, signal, sound };
    if (this.#calm) this.#look(start);
    else this.#pending.push(start);
  }

  /** The tick is over: what its starts may have seen is known, but for what comes late. */
  endTick(seconds: number): void {
    if (this.#pending.length === 0) return;
    for (const start of this.#pending) {
      if (this.#slack === 0) this.#look(start);
      else this.#wait(start, seconds);
    }
    this.#pending = [];
  }

  /** The ticks before `now` are over: starts that nothing can be moved to any more are classed. */
  settle(now: number): void {
    const due = this.#waiting.findIndex(({ seconds }) => seconds + this.#slack >= now - 1e-6);
    const ready = this.#waiting.splice(0, due < 0 ? this.#waiting.length : due);
    for (const { start, seen, life, seconds } of ready) {
      const { scope, own, sound } = start;
      const all = scope.withSlack(seen, own, seconds - this.#slack, seconds + this.#slack);
      const state = this.#states.indexOf(all);
      if (sound === null || this.#prepared.fading.length === 0) this.#add(start, state, life);
      else this.#know(sound, state);
    }
  }

  #wait(start: Pending, seconds: number): void {
    const { scope, snapshot, own, at, signal } = start;
    const seen = scope.seen(snapshot, own, at, signal);
    const life = this.#lived(this.#first(seen, start), start);
    this.#waiting.push({ start, seen, life, seconds });
  }

  /** What its fading signals may be at its start; null where nothing fades. */
  #first(seen: readonly Alternatives[], { scope, snapshot }: Pending): readonly Moment[] | null {
    if (this.#prepared.fading.length === 0) return null;
    return this.#moments.first(seen, (signal) => scope.seenPrevious(snapshot, signal));
  }

  /** Its first moments are kept by the sound, or are a finished life of that number. */
  #lived(moments: readonly Moment[] | null, { sound }: Pending): number {
    if (moments === null) return -1;
    if (sound === null) return this.#lives.indexOf(moments);
    for (const moment of moments) sound.life.add(moment);
    return -1;
  }

  /** A sound whose life is over, where fades make its class depend on it. */
  endSound(sound: Sound): void {
    if (this.#prepared.fading.length === 0 || sound.state < 0) return;
    const { startedBy, hold, signal, channel, key, velocity, state, doubt, track, tick, event } =
      sound;
    const lived = this.#lives.indexOf(sound.life.moments);
    this.#classes.add(
      startedBy,
      hold,
      signal,
      channel,
      key,
      velocity,
      state,
      lived,
      doubt,
      track,
      tick,
      event,
    );
  }

  /** Its tick is over, so its state is known; what has ended meanwhile is classed now. */
  #know(sound: Sound, state: number): void {
    sound.state = state;
    if (sound.open === 0) this.endSound(sound);
  }

  usage(): Pick<CopyUsage, 'states' | 'lives' | 'classes'> {
    return {
      states: this.#states.all,
      lives: this.#lives.all,
      classes: this.#classes.classes(),
    };
  }

  #look(start: Pending): void {
    const { scope, snapshot, own, at, signal, sound } = start;
    let state = scope.touched ? -1 : snapshot.state;
    let { moments } = snapshot;
    if (state < 0) {
      const seen = scope.seen(snapshot, own, at, signal);
      state = this.#states.indexOf(seen);
      moments = this.#first(seen, start);
      if (!scope.touched) {
        snapshot.state = state;
        snapshot.moments = moments;
      }
    }
    const life = this.#lived(moments, start);
    if (moments !== null && sound !== null) this.#know(sound, state);
    else this.#add(start, state, life);
  }

  #add({ event, own, doubt, at, hold, signal }: Pending, state: number, life: number): void {
    const { channel, key, velocity } = own;
    const { track, tick, event: position } = this.#stream;
    const [line, when] = [track[at]!, tick[at]!];
    this.#classes.add(
      event,
      hold,
      signal,
      channel,
      key,
      velocity,
      state,
      life,
      doubt,
      line,
      when,
      position[at]!,
    );
  }
}
