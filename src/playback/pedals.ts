import type { Pedal, PedalReading } from '../instruments/program.ts';
import { controllers, resetValue } from '../terms/controllers.ts';
import { sysexStatus, type CopyStream } from './copy-stream.ts';

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

  /** Pedals that are down before any message. */
  get initial(): readonly PedalMove[] {
    return (['sustain', 'sostenuto'] as const).flatMap((pedal) => {
      const one = this.#reading[pedal];
      return one !== null && one.initial >= one.down ? [{ pedal, down: true }] : none;
    });
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
 * The ways to read the pedals that this stream can tell apart: of those that move at the same events
 * only the first is left.
 */
export const distinctReadings = (
  readings: readonly PedalReading[],
  { length, status, data1, data2 }: CopyStream,
  sharesState: boolean,
): readonly PedalReading[] => {
  if (readings.length < 2) return readings;
  const pedalMessages: number[] = [];
  for (let at = 0; at < length; at++) {
    const byte = status[at]!;
    if (byte === sysexStatus || byte >> 4 !== 0xb) continue;
    if (mayMove(readings, data1[at]!)) pedalMessages.push(at);
  }
  const seen = new Set<string>();
  return readings.filter((reading) => {
    const pedals = Array.from({ length: 16 }, () => new Pedals(reading));
    const moves = pedals[0]!.initial.map(({ pedal }) => pedal as string);
    for (const at of pedalMessages) {
      const own = pedals[sharesState ? 0 : status[at]! & 0x0f]!;
      for (const { pedal, down } of own.take(data1[at]!, data2[at]!)) {
        moves.push(`${String(at)} ${pedal} ${String(down)}`);
      }
    }
    const text = moves.join();
    if (seen.has(text)) return false;
    seen.add(text);
    return true;
  });
};

/** Some reading may move a pedal at messages of this controller. */
const mayMove = (readings: readonly PedalReading[], number: number): boolean =>
  number === controllers.resetAllControllers ||
  readings.some(
    ({ sustain, sostenuto }) => sustain?.controller === number || sostenuto?.controller === number,
  );
