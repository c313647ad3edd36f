import type { StartEvent } from '../instruments/program.ts';
import { tempoAt } from '../midi/tempo.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { Alternatives } from './alternatives.ts';
import { ClassTable } from './class-table.ts';
import type { CopyStream } from './copy-stream.ts';
import { firstMoments } from './first-moments.ts';
import type { HeldKey } from './held-keys.ts';
import { LifeTable } from './lives.ts';
import type { PreparedProgram } from './prepared-program.ts';
import type { Scope, Snapshot } from './scope.ts';
import { StateTable } from './state-table.ts';
import type { Voice } from './voices.ts';
import type { CopyUsage } from './zone-usage.ts';

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
  readonly #classes = new ClassTable();
  #pending: Pending[] = [];
  readonly #waiting: Waiting[] = [];
  readonly #slack: number;
  /** The current tick holds nothing that could change what its notes see: they need not wait. */
  #calm = false;

  /** @param slack seconds for which starts wait for switches that come late; 0: none */
  constructor(prepared: PreparedProgram, stream: CopyStream, slack: number) {
    this.#slack = slack;
    this.#prepared = prepared;
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
    this.#classes.add('note-on', channel, key, velocity, state, -1, 0, line, when, position);
    return true;
  }

  /**
   * Records a start.
   *
   * @param at position in the stream of the event that proves it
   * @param voice followed to its end where fades depend on what happens meanwhile
   */
  record(
    event: StartEvent,
    at: number,
    scope: Scope,
    own: HeldKey,
    doubt: DoubtSet,
    voice: Voice | null,
  ): void {
    const { timeline, tick } = this.#stream;
    const tempo = this.#prepared.readsTempo ? Math.floor(tempoAt(timeline, tick[at]!)) : 0;
    const start = { event, scope, snapshot: scope.now(own, tempo), own, doubt, at, voice };
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
      const { scope, own, voice } = start;
      const all = scope.withSlack(seen, own, seconds - this.#slack, seconds + this.#slack);
      const state = this.#states.indexOf(all);
      if (voice === null || this.#prepared.fading.length === 0) this.#add(start, state, life);
      if (voice === null) continue;
      voice.state = state;
      if (voice.over) this.endVoice(voice);
    }
  }

  #wait(start: Pending, seconds: number): void {
    const { scope, snapshot, own, at, voice } = start;
    const seen = scope.seen(snapshot, own, at);
    this.#waiting.push({ start, seen, life: this.#lived(seen, snapshot, voice), seconds });
  }

  /** What its fading signals may be at its start: kept by the voice, or the number of a finished life. */
  #lived(seen: readonly Alternatives[], snapshot: Snapshot, voice: Voice | null): number {
    const { fading } = this.#prepared;
    if (fading.length === 0) return -1;
    const moments = firstMoments(
      fading,
      seen,
      (signal) => snapshot.previous[signal]!.list[0]!.value as number,
    );
    if (voice === null) return this.#lives.indexOf(moments);
    for (const moment of moments) voice.life.add(moment);
    return -1;
  }

  /** A voice whose life is over, where fades make its class depend on it. */
  endVoice(voice: Voice): void {
    if (this.#prepared.fading.length === 0) return;
    const { channel, key, velocity, state, doubt, startedBy, track, tick, event, life } = voice;
    if (state < 0) {
      voice.over = true;
      return;
    }
    const lived = this.#lives.indexOf(life.moments);
    this.#classes.add(startedBy, channel, key, velocity, state, lived, doubt, track, tick, event);
  }

  usage(): Pick<CopyUsage, 'states' | 'lives' | 'classes'> {
    return {
      states: this.#states.all,
      lives: this.#lives.all,
      classes: this.#classes.classes(),
    };
  }

  #look(start: Pending): void {
    const { scope, snapshot, own, at, voice } = start;
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
      life = this.#lived(seen ?? scope.seen(snapshot, own, at), snapshot, voice);
      if (voice !== null) {
        if (voice.over) this.endVoice(voice);
        return;
      }
    }
    this.#add(start, state, life);
  }

  #add({ event, own, doubt, at }: Pending, state: number, life: number): void {
    const { channel, key, velocity } = own;
    const { track, tick, event: position } = this.#stream;
    const [line, when] = [track[at]!, tick[at]!];
    const classes = this.#classes;
    classes.add(event, channel, key, velocity, state, life, doubt, line, when, position[at]!);
  }
}
