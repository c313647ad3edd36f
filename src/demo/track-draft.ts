import type { MidiEvent } from 'midi-file';
import { Dice, seedOf } from './dice.ts';

/** Any event of a channel or a track, without its place in time. */
export type Placeless = MidiEvent extends infer Event
  ? Event extends MidiEvent
    ? Omit<Event, 'deltaTime'>
    : never
  : never;

/** An event and where it stands; on one tick lower ranks come first. */
export interface Placed {
  readonly tick: number;
  readonly rank: number;
  readonly event: Placeless;
}

/** The order on one tick: endings, then settings, then notes, then what an exporter put too late. */
const ranks = { off: 0, setting: 1, on: 2, late: 3 } as const;

/** Controllers move on this grid, about every 15 ms. */
const grid = 10;

interface Note {
  readonly tick: number;
  end: number;
  readonly key: number;
  readonly velocity: number;
}

/** A track being written: one part on one channel. */
export class TrackDraft {
  readonly name: string;
  /** 0 to 15. */
  readonly channel: number;
  readonly dice: Dice;
  readonly #settings: Placed[] = [];
  readonly #notes: Note[] = [];

  /** @param cue the title without its version: the same music for all versions of a cue */
  constructor(cue: string, name: string, channel: number) {
    this.name = name;
    this.channel = channel;
    this.dice = new Dice(seedOf(`${cue}/${name}`));
  }

  /** A program change; `late` puts it after the notes of its tick. */
  program(tick: number, programNumber: number, late = false): void {
    const event: Placeless = { type: 'programChange', channel: this.channel, programNumber };
    this.#settings.push({ tick, rank: late ? ranks.late : ranks.setting, event });
  }

  controller(tick: number, controllerType: number, value: number): void {
    const event: Placeless = { type: 'controller', channel: this.channel, controllerType, value };
    this.#settings.push({ tick, rank: ranks.setting, event });
  }

  /** A fade in a straight line, written where the value changes. */
  glide(controller: number, from: number, to: number, first: number, last: number): void {
    this.#curve(controller, from, to, (x) => first + (last - first) * x);
  }

  /**
   * A swell up to `peak` in the middle and back, written where the value changes. `waver` is how far
   * the hand on the wheel strays, which makes the controller dense.
   */
  swell(
    controller: number,
    from: number,
    to: number,
    [rest, peak]: readonly [rest: number, peak: number],
    waver = 0,
  ): void {
    this.#curve(
      controller,
      from,
      to,
      (x) => rest + (peak - rest) * 4 * x * (1 - x) + (waver > 0 ? waver * this.dice.signed() : 0),
    );
  }

  /** A note; one of the same key that still sounds is ended first. The velocity is kept to 1-127. */
  note(tick: number, length: number, key: number, velocity: number): void {
    for (const other of this.#notes) {
      if (other.key === key && other.tick < tick && other.end > tick) other.end = tick;
    }
    const played = Math.max(1, Math.min(127, Math.round(velocity)));
    this.#notes.push({ tick, end: tick + length, key, velocity: played });
  }

  /** Everything in the order of the file. */
  events(): readonly Placed[] {
    const { channel } = this;
    const notes = this.#notes.flatMap(({ tick, end, key, velocity }): Placed[] => [
      {
        tick,
        rank: ranks.on,
        event: { type: 'noteOn', channel, noteNumber: key, velocity },
      },
      {
        tick: end,
        rank: ranks.off,
        event: { type: 'noteOff', channel, noteNumber: key, velocity: 0 },
      },
    ]);
    return inOrder([...this.#settings, ...notes]);
  }

  #curve(controller: number, from: number, to: number, shape: (x: number) => number): void {
    let before = -1;
    for (let tick = from; tick < to; tick += grid) {
      const value = Math.max(0, Math.min(127, Math.round(shape((tick - from) / (to - from)))));
      if (value !== before) this.controller(tick, controller, value);
      before = value;
    }
  }
}

/** By tick, then rank, then as written. */
export const inOrder = (events: readonly Placed[]): readonly Placed[] =>
  [...events].sort((a, b) => a.tick - b.tick || a.rank - b.rank);
