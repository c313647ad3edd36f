import type { LaneMessage, Synthesis } from '../lanes.ts';

/** A message on a tick of the primer. */
export interface TickedMessage extends LaneMessage {
  readonly tick: number;
}

/** Notes of all machines, put in time. */
export interface Schedule {
  readonly messages: readonly TickedMessage[];
  readonly notes: number;
  /** Behind all that has been put in time. */
  readonly end: number;
  /** Ticks that each machine plays. */
  readonly machines: ReadonlyMap<string, number>;
}

/**
 * Steps in time: machines at the same time, the groups of one machine one after the other, at most
 * `pace` notes a second each.
 *
 * @param perSecond ticks
 * @param begin the first tick
 */
export const schedule = (
  syntheses: readonly Synthesis[],
  pace: number,
  perSecond: number,
  begin: number,
): Schedule => {
  const messages: TickedMessage[] = [];
  const ends = new Map<string, number>();
  let notes = 0;
  for (const { group, steps } of syntheses) {
    let tick = ends.get(group.machine) ?? begin;
    for (const step of steps) {
      notes += step.notes;
      for (const message of step.messages) {
        messages.push({ ...message, tick: tick + Math.round(message.seconds * perSecond) });
      }
      tick += Math.ceil(Math.max(step.seconds, step.notes / pace) * perSecond - 1e-6);
    }
    ends.set(group.machine, tick);
  }
  return {
    messages: messages.sort((a, b) => a.tick - b.tick),
    notes,
    end: Math.max(begin, ...ends.values()),
    machines: new Map([...ends].map(([machine, end]) => [machine, end - begin])),
  };
};
