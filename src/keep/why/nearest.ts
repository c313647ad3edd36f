import { everyArticulation, type Instrument } from '../../instruments/instrument.ts';
import type { Start } from '../../instruments/program.ts';
import { hasRoom } from '../../playback/bands.ts';
import type { CopyUsage, FileUsage } from '../../playback/zone-usage.ts';
import { noHeadroom, type Headroom } from '../../template/template.ts';
import type { DoubtSet } from '../../terms/doubt.ts';
import { holdsWithout } from '../doubt-sets.ts';
import type { PlanCopy } from '../plan.ts';
import type { ReachedStart, Reacher } from '../reacher.ts';
import { leastRooms } from './least-rooms.ts';
import { NearNotes, type ClassOfReel } from './near-notes.ts';
import { ReelReachers } from './reel-reachers.ts';
import type { Nearest } from './why.ts';

/** What decides how near notes came. */
export interface NearestInput {
  readonly instrument: Instrument;
  /** In reel order, played with the instrument of `withExactValues`. */
  readonly files: readonly FileUsage[];
  /** What the copies chose in the whole reel. */
  readonly planned: readonly PlanCopy[];
  /** Doubts settled as plain. */
  readonly excluded: DoubtSet;
  /** Zones that nothing reaches, as indices. */
  readonly zones: ReadonlySet<number>;
}

const far = 127;
const allKeys: Headroom = { ...noHeadroom, keys: far };
const allVelocities: Headroom = { ...noHeadroom, velocity: far };

/** By zone what came nearest to reaching it, each way by itself: the nearest first. */
export const nearestNotes = (input: NearestInput): ReadonlyMap<number, readonly Nearest[]> => {
  const search = new Search(input);
  search.walk();
  return new Map([...input.zones].map((zone) => [zone, search.of(zone)]));
};

/** One walk over all classes of usage. */
class Search {
  readonly #input: NearestInput;
  readonly #copies: readonly (Pick<ClassOfReel, 'reel' | 'file'> & { readonly copy: CopyUsage })[];
  readonly #reachers: ReelReachers;
  /** Articulations of the zones, but for what belongs to every one. */
  readonly #articulations: readonly number[];
  readonly #hasControllers: boolean;
  readonly #settled = new NearNotes('settled');
  readonly #keys = new NearNotes('keys');
  readonly #velocity = new NearNotes('velocity');
  readonly #controller = new NearNotes('controller');
  readonly #articulation = new NearNotes('articulation');

  constructor(input: NearestInput) {
    const { instrument, files, planned, zones } = input;
    this.#input = input;
    this.#copies = files.flatMap((file, reel) =>
      file.copies
        .filter((copy) => copy.instrument === instrument.id && !copy.printed)
        .map((copy) => ({ reel, file, copy })),
    );
    this.#reachers = new ReelReachers(
      instrument,
      this.#copies.map(({ copy }) => copy),
      planned,
      zones,
    );
    this.#hasControllers = instrument.program.signals.some(hasRoom);
    const own = instrument.program.starts.filter(({ zone }) => zones.has(zone));
    this.#articulations = [...new Set(own.map(({ articulation }) => articulation))].filter(
      (one) => instrument.articulations[one]!.name !== everyArticulation,
    );
  }

  walk(): void {
    for (const { reel, file, copy } of this.#copies) {
      const reacher = this.#reachers.playing(copy);
      for (const one of copy.classes) {
        const from = { reel, file, class: one };
        this.#countSettled(reacher.starts(copy, one, noHeadroom), from);
        if (one.event !== 'change' && this.#reachers.onlySwitches(copy, one.key)) continue;
        this.#countKeysAndVelocities(reacher, copy, from);
        if (this.#hasControllers) this.#countControllers(reacher, copy, from);
        this.#countArticulations(copy, from);
      }
    }
  }

  of(zone: number): readonly Nearest[] {
    const near = [this.#keys, this.#velocity, this.#controller]
      .flatMap((way) => way.of(zone))
      .sort((a, b) => a.distance - b.distance);
    const settled = this.#settled.of(zone);
    // Where an answer alone stands in the way, no other articulation was chosen: none was.
    return [...settled, ...near, ...(settled.length > 0 ? [] : this.#articulation.of(zone))];
  }

  /** What would be reached, were a doubt not settled. */
  #countSettled(starts: readonly ReachedStart[], from: ClassOfReel): void {
    const { excluded } = this.#input;
    const found = new Map<number, DoubtSet>();
    for (const { start, doubts } of starts) {
      if (start.silent === true || holdsWithout(doubts, excluded)) continue;
      for (const set of doubts) {
        const answered = set & excluded;
        const known = found.get(start.zone);
        if (known === undefined || bits(answered) < bits(known)) found.set(start.zone, answered);
      }
    }
    for (const [zone, doubts] of found) this.#settled.add(zone, 0, from, doubts);
  }

  #countKeysAndVelocities(reacher: Reacher, copy: CopyUsage, from: ClassOfReel): void {
    const { event, key, velocity } = from.class;
    if (event === 'change') return;
    const byKey = this.#holding(reacher.starts(copy, from.class, allKeys));
    countLeast(this.#keys, byKey, ({ keys }) => outside(keys, key), from);
    const byVelocity = this.#holding(reacher.starts(copy, from.class, allVelocities));
    countLeast(this.#velocity, byVelocity, (one) => outside(one.velocities, velocity), from);
  }

  #countControllers(reacher: Reacher, copy: CopyUsage, from: ClassOfReel): void {
    const reached = (controller: number): ReadonlySet<number> => {
      const starts = reacher.starts(copy, from.class, { ...noHeadroom, controller });
      return new Set(this.#holding(starts).map(({ zone }) => zone));
    };
    const worth = (zone: number, room: number): boolean => room <= this.#controller.distance(zone);
    for (const [zone, room] of leastRooms(reached, worth)) this.#controller.add(zone, room, from);
  }

  #countArticulations(copy: CopyUsage, from: ClassOfReel): void {
    const zones = new Set<number>();
    for (const articulation of this.#articulations) {
      const reacher = this.#reachers.choosing(articulation);
      for (const { zone } of this.#holding(reacher.starts(copy, from.class, noHeadroom))) {
        zones.add(zone);
      }
    }
    for (const zone of zones) this.#articulation.add(zone, 0, from);
  }

  /** What sounds without any doubt that was settled as plain. */
  #holding(starts: readonly ReachedStart[]): readonly Start[] {
    return starts
      .filter(({ start, doubts }) => start.silent !== true && this.#holds(doubts))
      .map(({ start }) => start);
  }

  #holds(doubts: readonly DoubtSet[]): boolean {
    return holdsWithout(doubts, this.#input.excluded);
  }
}

/** Each zone counts once, for the nearest of its starts; what is reached anyway is not near. */
const countLeast = (
  notes: NearNotes,
  starts: readonly Start[],
  distanceOf: (start: Start) => number,
  from: ClassOfReel,
): void => {
  const least = new Map<number, number>();
  for (const start of starts) {
    const distance = distanceOf(start);
    if (distance < (least.get(start.zone) ?? Infinity)) least.set(start.zone, distance);
  }
  for (const [zone, distance] of least) if (distance > 0) notes.add(zone, distance, from);
};

/** How far a value is from a range. */
const outside = ([lo, hi]: Start['keys'], value: number): number =>
  Math.max(0, lo - value, value - hi);

const bits = (set: DoubtSet): number => {
  let count = 0;
  for (let rest = set; rest > 0; rest &= rest - 1) count++;
  return count;
};
