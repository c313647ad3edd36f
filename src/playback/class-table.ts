import type { StartEvent } from '../instruments/program.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { UsageClass, WitnessPlace } from './zone-usage.ts';

/** How many notes are kept as proof for each class, where all are not asked for. */
export const fewPlaces = 3;

interface Counted extends Omit<UsageClass, 'count' | 'witnesses'> {
  count: number;
  /** Track, tick and position of each witness in turn: one array a class, there are many classes. */
  readonly places: number[];
  /** The next class with the same state, channel, key and velocity. */
  next: Counted | null;
}

/** Counts starts by class. */
export class ClassTable {
  readonly #first = new Map<number, Counted>();
  readonly #limit: number;

  /** @param limit places kept of each class: the first ones */
  constructor(limit = fewPlaces) {
    this.#limit = limit;
  }

  add(
    event: StartEvent,
    hold: number,
    signal: number,
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
    // Changes count by signal as well as by value, which may be any whole number.
    const place = event === 'change' ? Math.abs(key) % 128 : key;
    const index = ((state * 16 + channel) * 128 + place) * 128 + velocity;
    const first = this.#first.get(index) ?? null;
    let found = first;
    while (
      found !== null &&
      (found.event !== event ||
        found.key !== key ||
        found.life !== life ||
        found.doubt !== doubt ||
        found.hold !== hold ||
        found.signal !== signal)
    ) {
      found = found.next;
    }
    if (found === null) {
      found = {
        event,
        hold,
        signal,
        channel,
        key,
        velocity,
        state,
        life,
        doubt,
        count: 0,
        places: [],
        next: first,
      };
      this.#first.set(index, found);
    }
    found.count++;
    const { places } = found;
    // Without a limit they are sorted once, at the end.
    const isLast = places.length === 0 || !isBefore(track, tick, position, places);
    if (isLast || this.#limit === Infinity) {
      if (places.length < 3 * this.#limit) places.push(track, tick, position);
      return;
    }
    const sorted = [...witnessesOf(places), [track, tick, position] as const].sort(comparePlaces);
    found.places.splice(0, places.length, ...sorted.slice(0, this.#limit).flat());
  }

  /** All classes, in an order that depends on nothing but the classes themselves. */
  classes(): readonly UsageClass[] {
    const all: UsageClass[] = [];
    for (const first of this.#first.values()) {
      for (let one: Counted | null = first; one !== null; one = one.next) {
        const { event, signal, hold, channel, key, velocity, state, life, doubt, count } = one;
        const places = witnessesOf(one.places);
        const witnesses = this.#limit === Infinity ? [...places].sort(comparePlaces) : places;
        all.push({
          event,
          signal,
          hold,
          channel,
          key,
          velocity,
          state,
          life,
          doubt,
          count,
          witnesses,
        });
      }
    }
    return all.sort(compareClasses);
  }
}

export const comparePlaces = (a: WitnessPlace, b: WitnessPlace): number =>
  a[0] - b[0] || a[1] - b[1] || a[2] - b[2];

/** True for a place before the last one of `places`. */
const isBefore = (
  track: number,
  tick: number,
  position: number,
  places: readonly number[],
): boolean => {
  const last = places.length - 3;
  if (track !== places[last]) return track < places[last]!;
  if (tick !== places[last + 1]) return tick < places[last + 1]!;
  return position < places[last + 2]!;
};

const witnessesOf = (places: readonly number[]): readonly WitnessPlace[] =>
  Array.from({ length: places.length / 3 }, (_, i) => [
    places[3 * i]!,
    places[3 * i + 1]!,
    places[3 * i + 2]!,
  ]);

const compareClasses = (a: UsageClass, b: UsageClass): number =>
  a.channel - b.channel ||
  a.state - b.state ||
  a.key - b.key ||
  a.velocity - b.velocity ||
  (a.event < b.event ? -1 : a.event > b.event ? 1 : 0) ||
  a.doubt - b.doubt ||
  a.life - b.life ||
  a.hold - b.hold ||
  a.signal - b.signal;
