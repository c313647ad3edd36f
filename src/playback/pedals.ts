import type { Pedal, PedalReading } from '../instruments/program.ts';
import { controllers, resetValue } from '../terms/controllers.ts';
import { doubtSet, within, type DoubtSet } from '../terms/doubt.ts';
import { sysexStatus, type CopyStream } from './copy-stream.ts';

const startState = doubtSet('start-state');

/** A pedal that has gone up or down. */
export interface PedalMove {
  readonly pedal: 'sustain' | 'sostenuto';
  readonly down: boolean;
}

const none: readonly PedalMove[] = [];

/** The pedals of one scope, as one way to read them has them. */
export class Pedals {
  readonly #reading: PedalReading;
  readonly #down = { sustain: false, sostenuto: false };

  constructor(reading: PedalReading) {
    this.#reading = reading;
    for (const { pedal, down } of this.initial) this.#down[pedal] = down;
  }

  /** The same pedals, as they stand now. */
  copy(): Pedals {
    const copy = new Pedals(this.#reading);
    Object.assign(copy.#down, this.#down);
    return copy;
  }

  /** Pedals that are down before any message. */
  get initial(): readonly PedalMove[] {
    return (['sustain', 'sostenuto'] as const).flatMap((pedal) => {
      const one = this.#reading[pedal];
      return one !== null && one.initial >= one.down ? [{ pedal, down: true }] : none;
    });
  }

  /** The sustain pedal is down. */
  get sustains(): boolean {
    return this.#down.sustain;
  }

  /** Takes a controller message; the pedals that it moves. */
  take(number: number, value: number): readonly PedalMove[] {
    const { sustain, sostenuto } = this.#reading;
    const resets = number === controllers.resetAllControllers;
    if (!resets && sustain?.controller !== number && sostenuto?.controller !== number) return none;
    return (['sustain', 'sostenuto'] as const).flatMap((pedal) => {
      const one = this.#reading[pedal];
      if (one === null) return none;
      const to = resets ? this.#afterReset(one) : one.controller === number ? value : null;
      const down = to !== null && to >= one.down;
      if (to === null || down === this.#down[pedal]) return none;
      this.#down[pedal] = down;
      return [{ pedal, down }];
    });
  }

  #afterReset({ controller }: Pedal): number | null {
    if (this.#reading.reset === 'ignored') return null;
    return this.#reading.reset === 'all' ? -1 : resetValue(controller);
  }
}

/**
 * The ways to read the pedals that this stream can tell apart: of those under which pedals stand alike
 * when the first note comes, and move at the same events from there on, what a smaller set of doubts
 * says already is left out.
 */
export const distinctReadings = (
  readings: readonly PedalReading[],
  stream: CopyStream,
  sharesState: boolean,
): readonly PedalReading[] => {
  if (readings.length < 2) return readings;
  const { length, status, data1, data2 } = stream;
  const pedalMessages: number[] = [];
  const firstNotes = new Map<number, number>();
  const scopeOf = (at: number): number => (sharesState ? 0 : status[at]! & 0x0f);
  for (let at = 0; at < length; at++) {
    const byte = status[at]!;
    if (byte === sysexStatus) continue;
    if (byte >> 4 === 0x9 && !firstNotes.has(scopeOf(at))) firstNotes.set(scopeOf(at), at);
    if (byte >> 4 === 0xb && mayMove(readings, data1[at]!)) pedalMessages.push(at);
  }
  const messages = new Set(pedalMessages.map((at) => data1[at]!));
  const seen = new Map<string, DoubtSet[]>();
  return readings.filter((reading) => {
    if (isFromBefore(reading) && !messages.has(reading.sustain!.controller)) return false;
    const pedals = Array.from({ length: 16 }, () => new Pedals(reading));
    const atFirst = new Map(
      [...firstNotes.keys()].map((scope) => [scope, pedals[scope]!.sustains] as const),
    );
    const moves: string[] = [];
    for (const at of pedalMessages) {
      const own = pedals[scopeOf(at)]!;
      const moved = own.take(data1[at]!, data2[at]!);
      // Before the first note it only matters where they come to stand.
      if (at < (firstNotes.get(scopeOf(at)) ?? Infinity)) {
        if (atFirst.has(scopeOf(at))) atFirst.set(scopeOf(at), own.sustains);
        continue;
      }
      for (const { pedal, down } of moved) moves.push(`${String(at)} ${pedal} ${String(down)}`);
    }
    const text = [...atFirst.values(), ...moves].join();
    const doubts = seen.get(text) ?? [];
    if (doubts.some((doubt) => within(doubt, reading.doubt))) return false;
    seen.set(text, [...doubts, reading.doubt]);
    return true;
  });
};

/**
 * The sustain pedal went down before the cue. A part that never touches it is not taken for one whose
 * pedal stayed down all along: every fade of every note would then be heard to the end of the cue.
 */
const isFromBefore = ({ sustain, doubt }: PedalReading): boolean =>
  sustain !== null && (doubt & startState) !== 0;

/** Some reading may move a pedal at messages of this controller. */
const mayMove = (readings: readonly PedalReading[], number: number): boolean =>
  number === controllers.resetAllControllers ||
  readings.some(
    ({ sustain, sostenuto }) => sustain?.controller === number || sostenuto?.controller === number,
  );
