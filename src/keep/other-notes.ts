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

/** Counts them class by class. */
export class OtherNotesCount {
  #choosing = 0;
  #doubtful = 0;
  #nothing = 0;
  readonly #excluded: DoubtSet;

  /** @param excluded doubts settled as plain */
  constructor(excluded: DoubtSet) {
    this.#excluded = excluded;
  }

  look({ class: one, isSwitch, starts }: ReachedClass): void {
    if (one.event !== 'note-on') return;
    if (starts.some(({ doubts }) => doubts[0] === plain)) return;
    if (starts.some(({ doubts }) => holdsWithout(doubts, this.#excluded))) {
      this.#doubtful += one.count;
    } else if (isSwitch) this.#choosing += one.count;
    else this.#nothing += one.count;
  }

  get counted(): OtherNotes {
    return { choosing: this.#choosing, doubtful: this.#doubtful, nothing: this.#nothing };
  }
}
