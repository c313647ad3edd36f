import type { Program } from '../instruments/program.ts';
import type { KeyMapCell } from '../keep/key-map/key-map.ts';
import type { ZonedMember } from '../keep/key-map/make-key-map.ts';
import { startKeys } from '../keep/key-map/start-keys.ts';
import type { Witness } from '../keep/plan.ts';

/** A witness as the page tells it. */
export interface ToldWitness {
  /** Index of the cue. */
  readonly cue: number;
  readonly track: string | null;
  readonly bar: number;
  readonly beat: number;
  readonly key: number | null;
  readonly velocity: number | null;
}

/** As many as a plan has of each zone. */
export const mostWitnesses = 3;

/**
 * The first notes that reach the zones of each cell of a row: those at a key of the cell first, then
 * others, in the order of the reel, each once.
 *
 * @param cells of the row, ascending
 */
export const cellWitnesses = (
  program: Program,
  members: readonly ZonedMember[],
  cells: readonly KeyMapCell[],
  tell: (witness: Witness) => ToldWitness,
): readonly (readonly ToldWitness[])[] => {
  const first = cells.map(({ keys }) => new FirstOnes(keys[0], keys[1]));
  const cellAt = new Int16Array(128).fill(-1);
  cells.forEach(({ keys }, i) => cellAt.fill(i, keys[0], keys[1] + 1));
  members.forEach(({ kept, starts }) => {
    if (kept === null || kept.witnesses.length === 0) return;
    const told = kept.witnesses.map(tell);
    const seen = new Set<number>();
    for (const i of starts) {
      const keys = startKeys(program, program.starts[i]!);
      if (keys === null) continue;
      for (let key = keys[0]; key <= keys[1]; key++) seen.add(cellAt[key]!);
    }
    for (const cell of seen) for (const one of told) first[cell]?.add(one);
  });
  return first.map(({ found }) => found);
};

/** The first few of many, without sorting all of them. */
class FirstOnes {
  readonly found: ToldWitness[] = [];
  readonly #lo: number;
  readonly #hi: number;

  constructor(lo: number, hi: number) {
    this.#lo = lo;
    this.#hi = hi;
  }

  add(one: ToldWitness): void {
    let at = this.found.length;
    while (at > 0) {
      const order = this.#order(one, this.found[at - 1]!);
      if (order === 0) return;
      if (order > 0) break;
      at--;
    }
    if (at === mostWitnesses) return;
    this.found.splice(at, 0, one);
    if (this.found.length > mostWitnesses) this.found.pop();
  }

  #order(a: ToldWitness, b: ToldWitness): number {
    return (
      Number(this.#isElsewhere(a)) - Number(this.#isElsewhere(b)) ||
      a.cue - b.cue ||
      a.bar - b.bar ||
      a.beat - b.beat ||
      (a.key ?? -1) - (b.key ?? -1) ||
      (a.velocity ?? -1) - (b.velocity ?? -1) ||
      byName(a.track, b.track)
    );
  }

  #isElsewhere({ key }: ToldWitness): boolean {
    return key === null || key < this.#lo || key > this.#hi;
  }
}

const byName = (a: string | null, b: string | null): number => {
  if (a === b) return 0;
  if (a === null || b === null) return a === null ? -1 : 1;
  return a < b ? -1 : 1;
};
