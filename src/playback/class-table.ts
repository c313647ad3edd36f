import type { StartEvent } from '../instruments/program.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { UsageClass, WitnessPlace } from './zone-usage.ts';

/** How many notes are kept as proof for each class. */
const witnessLimit = 3;

interface Counted extends Omit<UsageClass, 'count' | 'witnesses'> {
  count: number;
  witnesses: WitnessPlace[];
  /** The next class with the same state, channel, key and velocity. */
  next: Counted | null;
}

/** Counts starts by class. */
export class ClassTable {
  readonly #first = new Map<number, Counted>();

  add(
    event: StartEvent,
    channel: number,
    key: number,
    velocity: number,
    state: number,
    life: number,
    doubt: DoubtSet,
    track: number,
    tick: number,
    position: number,
  ): void {
    const index = ((state * 16 + channel) * 128 + key) * 128 + velocity;
    const first = this.#first.get(index) ?? null;
    let found = first;
    while (
      found !== null &&
      (found.event !== event || found.life !== life || found.doubt !== doubt)
    ) {
      found = found.next;
    }
    if (found === null) {
      found = {
        event,
        channel,
        key,
        velocity,
        state,
        life,
        doubt,
        count: 0,
        witnesses: [],
        next: first,
      };
      this.#first.set(index, found);
    }
    found.count++;
    const { witnesses } = found;
    const last = witnesses[witnessLimit - 1];
    if (last === undefined || isBefore(track, tick, position, last)) {
      witnesses.push([track, tick, position]);
      witnesses.sort(comparePlaces);
      if (witnesses.length > witnessLimit) witnesses.pop();
    }
  }

  /** All classes, in an order that depends on nothing but the classes themselves. */
  classes(): readonly UsageClass[] {
    const all: UsageClass[] = [];
    for (const first of this.#first.values()) {
      for (let one: Counted | null = first; one !== null; one = one.next) {
        const { event, channel, key, velocity, state, life, doubt, count, witnesses } = one;
        all.push({ event, channel, key, velocity, state, life, doubt, count, witnesses });
      }
    }
    return all.sort(compareClasses);
  }
}

export const comparePlaces = (a: WitnessPlace, b: WitnessPlace): number =>
  a[0] - b[0] || a[1] - b[1] || a[2] - b[2];

const isBefore = (track: number, tick: number, position: number, place: WitnessPlace): boolean =>
  track !== place[0] ? track < place[0] : tick !== place[1] ? tick < place[1] : position < place[2];

const compareClasses = (a: UsageClass, b: UsageClass): number =>
  a.channel - b.channel ||
  a.state - b.state ||
  a.key - b.key ||
  a.velocity - b.velocity ||
  (a.event < b.event ? -1 : a.event > b.event ? 1 : 0) ||
  a.doubt - b.doubt ||
  a.life - b.life;
