import { drumBank, patchValue, type Signal, type StartEvent } from '../../instruments/program.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { RoutedSource } from '../../template/routed.ts';
import type { Transform } from '../../template/route.ts';
import { controllers } from '../../terms/controllers.ts';
import { doubtSet, plain } from '../../terms/doubt.ts';
import type { CopyToPrime, Lane, LaneMessage } from '../lanes.ts';
import type { CopyState, Sounding } from './copy-state.ts';
import { HeldCount } from './held-count.ts';
import { isHeard, plainProgram, type PlainProgram } from './plain-program.ts';
import { powerOn } from './power-on.ts';
import { SignalIndex } from './signal-index.ts';
import { arrivingVelocity } from './wire.ts';

const tailDoubt = doubtSet('tail');

/** Millionths of a beat per minute, as the engine counts them: the primer plays at 120. */
export const primerTempo = 120_000_000;

/** What messages have started in a copy. */
export interface Heard {
  /** Zones that were started for certain. */
  readonly zones: ReadonlySet<number>;
  /** Starts by which they were. */
  readonly starts: ReadonlySet<number>;
  /** Starts of zones that may not be started. */
  readonly strays: number;
  /** The same where another reading of the instrument starts them. */
  readonly risks: number;
}

/** What a copy hears of a lane, or null. */
export const hearing = (sources: readonly RoutedSource[], lane: Lane): RoutedSource | null =>
  sources.find(
    ({ track, port, channels }) =>
      track === lane.track && port === lane.port && (channels & (1 << lane.channel)) !== 0,
  ) ?? null;

/**
 * Plays messages to one copy by the plain reading: fast enough to try many notes, which the engine
 * then has the last word about.
 */
export class Performer {
  readonly copy: CopyToPrime;
  readonly plain: PlainProgram;
  readonly #signals: readonly Signal[];
  readonly #index: SignalIndex;
  readonly #channels: boolean;
  readonly #minds: boolean;
  /** Seconds for which a key counts as held once it was let go; 0: it does not. */
  readonly #memory: number;
  state: CopyState;
  #zones = new Set<number>();
  #starts = new Set<number>();
  #strays = 0;
  #risks = 0;

  constructor(copy: CopyToPrime) {
    this.copy = copy;
    this.plain = plainProgram(programFor(copy.instrument, copy.copy.articulation));
    const { program } = this.plain;
    this.#signals = program.signals;
    this.#index = new SignalIndex(program.signals);
    this.#channels = program.scope === 'channel';
    this.#memory = this.#signals.reduce(
      (longest, signal) =>
        signal.kind === 'held' ? Math.max(longest, signal.within ?? 0) : longest,
      0,
    );
    this.#minds = this.plain.fading.length > 0 && (copy.excluded & tailDoubt) === 0;
    this.state = powerOn(program);
  }

  /** The value of a signal on a channel, and whether a message has set it. */
  valueOf(signal: number, channel: number): { readonly value: number; readonly isTold: boolean } {
    const at = this.#scope(channel) * this.#signals.length + signal;
    return { value: this.state.values[at]!, isTold: this.state.told[at] === 1 };
  }

  controllerOf(number: number, channel: number): number {
    return this.state.controllers[this.#scope(channel) * 128 + number]!;
  }

  /** Plays what of the messages the copy hears, from `seconds` on. */
  play(messages: readonly LaneMessage[], seconds: number): Heard {
    this.#zones = new Set();
    this.#starts = new Set();
    this.#strays = 0;
    this.#risks = 0;
    for (const message of messages) {
      const source = hearing(this.copy.copy.sources, message.lane);
      if (source === null) continue;
      this.state.seconds = seconds + message.seconds;
      this.#take(message, source.transform);
    }
    return {
      zones: this.#zones,
      starts: this.#starts,
      strays: this.#strays,
      risks: this.#risks,
    };
  }

  #take({ lane, status, data1, data2 }: LaneMessage, transform: Transform): void {
    const { channel } = lane;
    const kind = status >> 4;
    const key = data1 + transform.transpose;
    if (kind === 0x8 || kind === 0x9 || kind === 0xa) {
      if (key < 0 || key > 127) return;
      if (kind === 0xa) this.#polyPressure(channel, key, data2);
      else if (kind === 0x9 && data2 > 0) {
        this.#noteOn(channel, key, arrivingVelocity(transform, data2));
      } else this.#noteOff(channel, key);
    } else if (kind === 0xb) {
      this.#controller(channel, transform.controllers.get(data1) ?? data1, data2);
    } else if (kind === 0xc) {
      this.#set(channel, this.#index.of('program'), data1);
      const bank = this.state.banks[channel]!;
      this.#set(channel, this.#index.of('patch'), patchValue(bank, data1));
    } else if (kind === 0xd) this.#moved(channel, 'pressure', data1);
    else this.#moved(channel, 'bend', data2 * 128 + data1 - 8192);
  }

  #scope(channel: number): number {
    return this.#channels ? channel : 0;
  }

  #set(channel: number, signals: readonly number[], value: number): void {
    const from = this.#scope(channel) * this.#signals.length;
    for (const i of signals) {
      this.#pass(channel, i, this.state.values[from + i]!, value);
      this.state.values[from + i] = value;
      this.state.told[from + i] = 1;
    }
  }

  /** What sounds, or may still do, goes through all between two values. */
  #pass(channel: number, signal: number, before: number, value: number): void {
    if (before === value || !this.plain.fading.includes(signal)) return;
    const scope = this.#scope(channel);
    const [lo, hi] = [Math.min(before, value), Math.max(before, value)];
    const values = this.#values(channel, -1);
    const { starts } = this.plain.program;
    const opens = (start: number): boolean =>
      starts[start]!.fades.every((fade) =>
        fade.signal === signal
          ? fade.lo <= hi && fade.hi >= lo
          : values[fade.signal]! >= fade.lo && values[fade.signal]! <= fade.hi,
      );
    for (const tail of this.state.tails) {
      if (tail.scope !== scope || tail.until < this.state.seconds) continue;
      if (opens(tail.start)) this.#strays++;
    }
    for (const { channel: own, key, velocity } of this.state.sounding) {
      if (this.#scope(own) !== scope) continue;
      // What opens while its key is down is started for certain.
      for (const start of this.plain.starts('note-on', key, velocity, this.#values(own, key))) {
        if (starts[start]!.fades.length > 0 && opens(start)) this.#count(start);
      }
    }
  }

  #noteOn(channel: number, key: number, velocity: number): void {
    this.#set(channel, this.#index.pressedBy(key), key);
    const own: Sounding = { channel, key, velocity, pedalled: null };
    this.#start('note-on', channel, key, velocity);
    this.state.sounding = [...this.state.sounding, own];
    this.#set(channel, this.#index.rememberingKey(key), key);
    this.#set(channel, this.#index.of('previous-velocity'), velocity);
  }

  #noteOff(channel: number, key: number): void {
    const ended = this.state.sounding.find(
      (one) => one.channel === channel && one.key === key && one.pedalled === null,
    );
    if (ended === undefined) return;
    const held = this.plain.program.holds.flatMap((_, hold) =>
      this.#isPedalDown(hold, channel) ? [hold] : [],
    );
    this.state.sounding = this.state.sounding.flatMap((one) =>
      one !== ended ? [one] : held.length > 0 ? [{ ...one, pedalled: held }] : [],
    );
    if (this.#memory > 0) {
      const now = this.state.seconds;
      this.state.lifted = [
        ...this.state.lifted.filter(({ at }) => at + this.#memory >= now),
        { channel, key, at: now },
      ];
    }
    this.#start('note-off', channel, key, ended.velocity);
    this.#start('release', channel, key, ended.velocity, (hold) => !held.includes(hold));
  }

  #isPedalDown(hold: number, channel: number): boolean {
    const one = this.plain.program.holds[hold]!;
    const sustain = one.pedals[0]?.sustain ?? null;
    if (one.oneShot || sustain === null) return false;
    return this.controllerOf(sustain.controller, channel) >= sustain.down;
  }

  #controller(channel: number, number: number, value: number): void {
    if (number > 127) return;
    this.state.controllers[this.#scope(channel) * 128 + number] = value;
    if (number === controllers.bankSelectMsb && this.state.banks[channel] !== drumBank) {
      this.state.banks[channel] = value;
    }
    const changed = this.#index.ofController(number);
    this.#set(channel, changed, value);
    this.#change(changed, channel, value, 0);
    const kept: Sounding[] = [];
    for (const one of this.state.sounding) {
      if (one.pedalled === null || this.#scope(one.channel) !== this.#scope(channel)) {
        kept.push(one);
        continue;
      }
      const left = one.pedalled.filter((hold) => this.#isPedalDown(hold, one.channel));
      const free = one.pedalled.filter((hold) => !left.includes(hold));
      if (free.length > 0) {
        this.#start('release', one.channel, one.key, one.velocity, (hold) => free.includes(hold));
      }
      if (left.length > 0) kept.push({ ...one, pedalled: left });
    }
    this.state.sounding = kept;
  }

  #moved(channel: number, kind: Signal['kind'], value: number): void {
    this.#set(channel, this.#index.of(kind), value);
    this.#change(this.#index.of(kind), channel, value, 0);
  }

  #polyPressure(channel: number, key: number, value: number): void {
    this.state.poly = new Map([...this.state.poly, [key, value]]);
    const set = this.#index.of('poly-pressure');
    this.#set(channel, set, value);
    this.#change(set, channel, value, key);
  }

  #change(signals: readonly number[], channel: number, value: number, key: number): void {
    for (const signal of signals) {
      if (!this.plain.changes.has(signal)) continue;
      this.#start('change', channel, value, key, () => true, signal);
    }
  }

  /** What every signal is for an event of a key. */
  #values(channel: number, key: number): readonly number[] {
    const from = this.#scope(channel) * this.#signals.length;
    const { state } = this;
    let held: HeldCount | null = null;
    const scope = this.#scope(channel);
    return this.#signals.map((signal, i) => {
      switch (signal.kind) {
        case 'channel':
          return channel + 1;
        case 'tempo':
          return primerTempo;
        case 'held':
          held ??= new HeldCount(state, (other) => this.#scope(other) === scope, key);
          return held.of(signal);
        case 'poly-pressure':
          return signal.of === 'own-key'
            ? (this.state.poly.get(key) ?? 0)
            : this.state.values[from + i]!;
        default:
          return this.state.values[from + i]!;
      }
    });
  }

  #start(
    event: StartEvent,
    channel: number,
    key: number,
    velocity: number,
    isHeld: (hold: number) => boolean = () => true,
    change = -1,
  ): void {
    if (!this.plain.listens.has(event)) return;
    const values = this.#values(channel, event === 'change' ? -1 : key);
    for (const index of this.plain.starts(event, key, velocity, values)) {
      const start = this.plain.program.starts[index]!;
      if (!isHeld(start.hold) || (start.change ?? change) !== change) continue;
      if (isHeard(start, values)) this.#count(index);
      // A tail by another reading is no reason to leave a controller alone for good.
      const isCertain = start.doubt === plain && this.copy.kept[start.zone] !== 1;
      if (isCertain && start.fades.length > 0 && this.#minds) {
        const until = this.state.seconds + 0.3 + start.releaseSeconds;
        const scope = this.#scope(channel);
        this.state.tails = [...this.state.tails, { start: index, scope, until }];
      }
    }
  }

  #count(index: number): void {
    const { zone, doubt } = this.plain.program.starts[index]!;
    const isKept = this.copy.kept[zone] === 1;
    if (doubt === plain) {
      if (isKept) {
        this.#zones.add(zone);
        this.#starts.add(index);
      } else this.#strays++;
    } else if (!isKept) this.#risks++;
  }
}
