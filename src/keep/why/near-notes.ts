import { comparePlaces } from '../../playback/class-table.ts';
import type { FileUsage, UsageClass, WitnessPlace } from '../../playback/zone-usage.ts';
import { namesOf, plain, type DoubtSet } from '../../terms/doubt.ts';
import { witnessOf } from '../witness.ts';
import type { Nearest } from './why.ts';

/** Where a class of usage comes from. */
export interface ClassOfReel {
  /** The place of its file in reel order. */
  readonly reel: number;
  readonly file: FileUsage;
  readonly class: UsageClass;
}

interface Near {
  distance: number;
  doubts: DoubtSet;
  notes: number;
  reel: number;
  place: WitnessPlace;
  first: ClassOfReel;
}

/** By zone, the nearest notes in one way of being near. */
export class NearNotes {
  readonly #by: Nearest['by'];
  readonly #zones = new Map<number, Near>();

  constructor(by: Nearest['by']) {
    this.#by = by;
  }

  has(zone: number): boolean {
    return this.#zones.has(zone);
  }

  /** How near the nearest is until now; Infinity: none was. */
  distance(zone: number): number {
    return this.#zones.get(zone)?.distance ?? Infinity;
  }

  /**
   * Counts a class whose notes are so far from a zone; call it once for each class and zone.
   *
   * @param doubts what would have to be answered otherwise; of two such sets the smaller is nearer
   */
  add(zone: number, distance: number, from: ClassOfReel, doubts: DoubtSet = plain): void {
    const { event, count, witnesses } = from.class;
    // Each note is cut by all that follow it: that is no number of notes.
    const notes = event === 'cut' ? 0 : count;
    const place = witnesses[0]!;
    const known = this.#zones.get(zone);
    const order =
      known === undefined
        ? -1
        : distance - known.distance || size(doubts) - size(known.doubts) || doubts - known.doubts;
    if (order > 0) return;
    if (order < 0 || known === undefined) {
      this.#zones.set(zone, { distance, doubts, notes, reel: from.reel, place, first: from });
      return;
    }
    known.notes += notes;
    if ((from.reel - known.reel || comparePlaces(place, known.place)) < 0) {
      known.reel = from.reel;
      known.place = place;
      known.first = from;
    }
  }

  of(zone: number): readonly Nearest[] {
    const near = this.#zones.get(zone);
    if (near === undefined) return [];
    const { distance, doubts, notes, place, first } = near;
    const { event, key, velocity } = first.class;
    const isChange = event === 'change';
    return [
      {
        by: this.#by,
        distance,
        doubts: namesOf(doubts),
        notes,
        place: witnessOf(first.file, place, isChange ? null : key, isChange ? null : velocity),
      },
    ];
  }
}

const size = (doubts: DoubtSet): number => namesOf(doubts).length;
