import type { CopyUsage, UsageClass, WitnessPlace } from '../playback/zone-usage.ts';
import { plain, type DoubtSet } from '../terms/doubt.ts';
import { holdsWithout } from './doubt-sets.ts';
import type { ReachedClass } from './reach.ts';

/** Notes of an instrument that start nothing plainly, each counted once. */
export interface OtherNotes {
  /** They choose what later notes start, and start nothing themselves. */
  readonly choosing: number;
  /** They start something only if an open doubt holds. */
  readonly doubtful: number;
  /** They start nothing that is heard. */
  readonly nothing: number;
}

/**
 * Counts them class by class. A note is in one class as the files have it, which is the one that counts;
 * other readings of the same note, as at a key to which a tuning may move it, are classes of their own
 * under a doubt. They are asked only where the note starts nothing by itself.
 */
export class OtherNotesCount {
  #choosing = 0;
  #doubtful = 0;
  #nothing = 0;
  readonly #excluded: DoubtSet;
  /** The copy at hand: its notes are told apart by their places. */
  #copy: CopyUsage | null = null;
  /** Its classes whose notes start nothing by themselves. */
  #silent: UsageClass[] = [];
  /** Where another reading of a note starts something. */
  readonly #otherwise = new Set<string>();

  /** @param excluded doubts settled as plain */
  constructor(excluded: DoubtSet) {
    this.#excluded = excluded;
  }

  /** Classes of one copy of a file come in a row. */
  look({ copy, class: one, isSwitch, starts }: ReachedClass): void {
    if (copy !== this.#copy) {
      this.#endCopy();
      this.#copy = copy;
    }
    if (one.event !== 'note-on') return;
    const isPossible = starts.some(({ doubts }) => holdsWithout(doubts, this.#excluded));
    if (one.doubt !== plain) {
      if (isPossible) for (const place of one.witnesses) this.#otherwise.add(keyOf(place));
      return;
    }
    if (starts.some(({ doubts }) => doubts[0] === plain)) return;
    if (isPossible) this.#doubtful += one.count;
    else if (isSwitch) this.#choosing += one.count;
    else this.#silent.push(one);
  }

  get counted(): OtherNotes {
    this.#endCopy();
    return { choosing: this.#choosing, doubtful: this.#doubtful, nothing: this.#nothing };
  }

  #endCopy(): void {
    for (const { count, witnesses } of this.#silent) {
      const known = witnesses.filter((place) => this.#otherwise.has(keyOf(place))).length;
      // Notes of one class are alike: where only the first have a place, they stand for all.
      const doubtful = known > 0 && witnesses.length < count ? count : known;
      this.#doubtful += doubtful;
      this.#nothing += count - doubtful;
    }
    this.#silent = [];
    this.#otherwise.clear();
  }
}

const keyOf = (place: WitnessPlace): string => place.join(' ');
