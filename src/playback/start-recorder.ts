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

/** Sorts the starts of one copy into classes. */
export class StartRecorder {
  readonly #prepared: PreparedProgram;
  readonly #stream: CopyStream;
  readonly #states = new StateTable();
  readonly #lives = new LifeTable();
  readonly #classes = new ClassTable();
  #pending: Pending[] = [];
  /** The current tick holds nothing that could change what its notes see: they need not wait. */
  #calm = false;

  constructor(prepared: PreparedProgram, stream: CopyStream) {
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

  /** The tick is over: what its starts may have seen is known. */
  endTick(): void {
    if (this.#pending.length === 0) return;
    for (const start of this.#pending) this.#look(start);
    this.#pending = [];
  }

  /** A voice whose life is over, where fades make its class depend on it. */
  endVoice({ channel, key, velocity, state, doubt, track, tick, event, life }: Voice): void {
    if (this.#prepared.fading.length === 0) return;
    const lived = this.#lives.indexOf(life.moments);
    this.#classes.add('note-on', channel, key, velocity, state, lived, doubt, track, tick, event);
  }

  usage(): Pick<CopyUsage, 'states' | 'lives' | 'classes'> {
    return {
      states: this.#states.all,
      lives: this.#lives.all,
      classes: this.#classes.classes(),
    };
  }

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
    const { channel, key, velocity } = own;
    const { track, tick, event: position } = this.#stream;
    const [line, when] = [track[at]!, tick[at]!];
    const classes = this.#classes;
    classes.add(event, channel, key, velocity, state, life, doubt, line, when, position[at]!);
  }
}
