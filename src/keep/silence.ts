import { namesOf, type DoubtSet } from '../terms/doubt.ts';
import { holdsWithout } from './doubt-sets.ts';
import type { ReachedClass } from './reach.ts';

/** Notes that make no sound, and where. */
export interface Silence {
  notes: number;
  readonly keys: Set<number>;
  readonly cues: Set<string>;
  readonly tracks: Set<string | null>;
  /** Doubts settled as plain that would have let them sound. */
  readonly doubts: Set<string>;
}

/** Notes of an instrument that make no sound: for want of a zone, or because of an answer to a doubt. */
export class Silences {
  readonly withoutZone: Silence = nothing();
  readonly settled: Silence = nothing();
  readonly #excluded: DoubtSet;

  /** @param excluded doubts settled as plain */
  constructor(excluded: DoubtSet) {
    this.#excluded = excluded;
  }

  look({ file, class: one, isSwitch, starts, silent }: ReachedClass): void {
    if (one.event !== 'note-on' || isSwitch || one.doubt !== 0) return;
    // A note that only stops others is meant to be silent.
    if (starts.length === 0 && silent.length > 0) return;
    if (starts.some(({ doubts }) => holdsWithout(doubts, this.#excluded))) return;
    const silence = starts.length === 0 ? this.withoutZone : this.settled;
    silence.notes += one.count;
    silence.keys.add(one.key);
    silence.cues.add(file.cue);
    for (const [track] of one.witnesses) silence.tracks.add(file.tracks[track]!.name);
    for (const { doubts } of starts) {
      for (const set of doubts) {
        for (const name of namesOf(set & this.#excluded)) silence.doubts.add(name);
      }
    }
  }
}

const nothing = (): Silence => ({
  notes: 0,
  keys: new Set(),
  cues: new Set(),
  tracks: new Set(),
  doubts: new Set(),
});
