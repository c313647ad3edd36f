import type { DoubtSet } from '../terms/doubt.ts';
import type { PedalMove } from './pedals.ts';
import type { Voice } from './voices.ts';

/** A pedal that has moved on the current tick. */
interface Move extends PedalMove {
  /** Position in the stream. */
  readonly at: number;
  /** 0-15, or null: all that share one state. */
  readonly channel: number | null;
}

/** A voice whose key has gone up on the current tick. */
export interface LetGo {
  readonly voice: Voice;
  /** Position of the note-off in the stream. */
  readonly at: number;
  /** Its release starts something that no other voice of the same key does. */
  readonly isNew: boolean;
  /** Caught by the sostenuto pedal before the tick. */
  readonly caught: boolean;
  /** Doubt of what its release starts. */
  readonly doubt: DoubtSet;
}

/** What becomes of a voice whose key goes up. */
export type Fate = 'released' | 'held' | 'caught';

/**
 * The keys that go up and the pedals that move within one tick, on which a note-off may have come
 * before any of the pedals or behind them.
 */
export class LetGoTick {
  #moves: readonly Move[] = [];
  #letGo: LetGo[] = [];
  /** What the sostenuto pedal held before it moved on this tick; null: it has not. */
  #caught: ReadonlySet<Voice> | null = null;

  /** @param caught what the sostenuto pedal holds, asked for before it moves */
  move(move: Move, caught: () => ReadonlySet<Voice>): void {
    if (move.pedal === 'sostenuto') this.#caught ??= caught();
    this.#moves = [...this.#moves, move];
  }

  letGo(one: LetGo): void {
    this.#letGo.push(one);
  }

  /** The sostenuto pedal held a voice before the tick. */
  isCaught(voice: Voice): boolean {
    return this.#caught === null ? voice.sostenuto : this.#caught.has(voice);
  }

  /** The same moves of the pedals, before any key goes up. */
  copy(): LetGoTick {
    const copy = new LetGoTick();
    copy.#moves = this.#moves;
    return copy;
  }

  /**
   * The tick is over: hands over each voice with what other orders make of it.
   *
   * @param sustains whether the sustain pedal of a channel is down now
   */
  end(sustains: (channel: number) => boolean, otherwise: (one: LetGo, fate: Fate) => void): void {
    if (this.#moves.length > 0) {
      for (const one of this.#letGo) {
        const { sound } = one.voice;
        const moves = this.#moves.filter(
          ({ channel }) => channel === null || channel === sound.channel,
        );
        const first = moves.find(({ pedal }) => pedal === 'sustain');
        const began = first === undefined ? sustains(sound.channel) : !first.down;
        const fates = fatesOf(moves, sound.at, began, one.caught);
        fates.delete(fateOf(one.voice));
        for (const fate of fates) otherwise(one, fate);
      }
      this.#moves = [];
    }
    this.#letGo = [];
    this.#caught = null;
  }
}

const fateOf = ({ phase, sostenuto }: Voice): Fate =>
  phase === 'released' ? 'released' : sostenuto ? 'caught' : 'held';

/**
 * What may become of a voice, its note-off being put between any two moves of the pedals.
 *
 * @param struck where its note began: the sostenuto pedal catches only what has
 * @param began the sustain pedal was down before the tick
 * @param caughtBefore so was the sostenuto pedal when the voice already sounded
 */
const fatesOf = (
  moves: readonly Move[],
  struck: number,
  began: boolean,
  caughtBefore: boolean,
): Set<Fate> => {
  const fates = new Set<Fate>();
  for (let off = 0; off <= moves.length; off++) {
    fates.add(fateWith(moves, off, struck, began, caughtBefore));
  }
  return fates;
};

/** @param off the note-off comes before this move */
const fateWith = (
  moves: readonly Move[],
  off: number,
  struck: number,
  began: boolean,
  caughtBefore: boolean,
): Fate => {
  let sustains = began;
  let caught = caughtBefore;
  for (let i = 0; i <= moves.length; i++) {
    if (i >= off && !sustains && !caught) return 'released';
    const move = moves[i];
    if (move === undefined) break;
    if (move.pedal === 'sustain') sustains = move.down;
    else caught = move.down && i < off && move.at > struck;
  }
  return caught ? 'caught' : 'held';
};
