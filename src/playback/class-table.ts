import type { StartEvent } from '../instruments/program.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { UsageClass, WitnessPlace } from './zone-usage.ts';

/** How many notes are kept as proof for each class. */
const witnessLimit = 3;

interface Counted extends Omit<UsageClass, 'count' | 'witnesses'> {
  count: number;
  witnesses: WitnessPlace[];
}

/** Counts starts by class. */
export class ClassTable {
  readonly #byKey = new Map<number, Counted[]>();

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
    const bucket = this.#byKey.get(index);
    let found = bucket?.find((c) => c.event === event && c.life === life && c.doubt === doubt);
    if (found === undefined) {
      found = { event, channel, key, velocity, state, life, doubt, count: 0, witnesses: [] };
      if (bucket === undefined) this.#byKey.set(index, [found]);
      else bucket.push(found);
    }
    found.count++;
    const last = found.witnesses.at(-1);
    if (found.witnesses.length < witnessLimit || isBefore(track, tick, position, last!)) {
      found.witnesses.push([track, tick, position]);
      found.witnesses.sort(comparePlaces);
      if (found.witnesses.length > witnessLimit) found.witnesses.pop();
    }
  }

  /** All classes, in an order that depends on nothing but the classes themselves. */
  classes(): readonly UsageClass[] {
    return [...this.#byKey.values()].flat().sort(compareClasses);
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
