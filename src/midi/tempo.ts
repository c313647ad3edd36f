import type { Timeline } from './score.ts';

const microsecondsPerMinute = 60_000_000;

/** Beats (quarter notes) per minute at a tick (SMF 1.0, FF 51). */
export const tempoAt = ({ tempo }: Timeline, tick: number): number =>
  microsecondsPerMinute / tempo.findLast((change) => change.tick <= tick)!.microsecondsPerQuarter;
