import type { Capacity } from './capacity.ts';
import { cutsFor, type Cut } from './cut.ts';
import type { HighFigures } from './high-figures.ts';
import { mendPlacement } from './mend-placement.ts';
import { crewsOf, type PlacementResult } from './placement-types.ts';
import { columnOf, costOf, linearProgram, type PlacementProgram } from './program.ts';
import type { Solver } from './solver.ts';

/** Instruments that are loaded, machines, and who solves. */
export interface SearchInput {
  readonly solver: Solver;
  readonly homes: readonly number[];
  /** Bytes that moving each moves. */
  readonly bytes: readonly number[];
  readonly budgets: readonly (number | null)[];
  readonly figures: HighFigures;
  readonly capacity: Capacity;
  /** Machines whose high figure is above their budget, in whole bytes. */
  readonly overfull: (machines: readonly number[]) => readonly number[];
}

/** What is spent on a search at most: a number of steps and no time, so that it ends alike everywhere. */
interface Effort {
  /** Programs that are solved: each but the last was found to allow too much. */
  rounds: number;
  /** Nodes of the solver's search that are looked at in all of them together. */
  nodes: number;
}

/** A step takes longer where there is more to choose: 60 instruments on 5 machines are 300 columns. */
const effortFor = (columns: number): Effort => ({
  rounds: Math.min(100, Math.max(5, Math.floor(12_000 / columns))),
  nodes: Math.max(100, Math.floor(150_000 / columns)),
});

/** A placement that fits, and whether less was looked for to the end. */
interface Found {
  readonly machines: readonly number[];
  readonly isBest: boolean;
}

type Goal = Pick<PlacementProgram, 'costs' | 'limit'>;

/**
 * Looks for the best placement. The program says of some placements that they fit though they do not;
 * each time it comes up with one, what is too much there is ruled out, and it is solved again.
 */
export class Search {
  readonly #input: SearchInput;
  readonly #cuts: Cut[] = [];
  readonly #effort: Effort;
  /** No placement moves fewer bytes. */
  #bound = 0;
  #mended: readonly number[] | null = null;

  constructor(input: SearchInput) {
    this.#input = input;
    const { homes, budgets, capacity } = input;
    this.#effort = effortFor((homes.length + capacity.pools.length) * budgets.length);
  }

  run(): PlacementResult {
    const { homes, bytes } = this.#input;
    const first = this.#solve({ costs: bytes, limit: null }, (bound) => {
      this.#bound = Math.max(this.#bound, bound);
    });
    if (first === 'impossible') return { state: first, machines: homes, gap: 0 };
    if (first?.isBest === true) {
      const { machines } = first;
      return { state: 'placed', machines: this.#withFewer(machines), gap: 0 };
    }
    this.#mend(homes);
    const mended = this.#mended;
    const found =
      first !== null && (mended === null || this.#bytesOf(first.machines) <= this.#bytesOf(mended))
        ? first.machines
        : mended;
    if (found === null) return { state: 'open', machines: homes, gap: 0 };
    // Less than a byte is no gap: bytes are whole.
    const gap = Math.max(0, this.#bytesOf(found) - Math.ceil(this.#bound - 0.5));
    return { state: 'placed', machines: found, gap };
  }

  /** The same bytes with fewer instruments, or what there is. */
  #withFewer(machines: readonly number[]): readonly number[] {
    const { bytes } = this.#input;
    const moved = this.#bytesOf(machines);
    const count = this.#countOf(machines);
    if (count <= 1) return machines;
    const limit = { bytes, most: moved };
    const fewer = this.#solve({ costs: bytes.map(() => 1), limit }, () => undefined);
    if (fewer === null || fewer === 'impossible') return machines;
    const isBetter =
      this.#bytesOf(fewer.machines) <= moved && this.#countOf(fewer.machines) < count;
    return isBetter ? fewer.machines : machines;
  }

  /** Null: the effort was spent before anything was found that fits. */
  #solve(goal: Goal, bounded: (cost: number) => void): Found | 'impossible' | null {
    const { solver, homes, budgets, figures, capacity, overfull } = this.#input;
    while (this.#effort.rounds > 0 && this.#effort.nodes > 0) {
      const program = { homes, budgets, capacity, cuts: this.#cuts, ...goal };
      const { state, columns, bound, nodes } = solver(linearProgram(program), this.#effort.nodes);
      this.#effort.rounds -= 1;
      this.#effort.nodes -= nodes;
      if (state === 'infeasible') return 'impossible';
      bounded(costOf(bound));
      if (columns === null) return null;
      const machines = this.#machinesOf(columns);
      const tooFull = overfull(machines);
      if (tooFull.length === 0) return { machines, isBest: state === 'optimal' };
      this.#mend(machines);
      const crews = crewsOf(machines, budgets.length);
      for (const m of tooFull) this.#cuts.push(...cutsFor(crews[m]!, m, budgets, figures));
    }
    return null;
  }

  /** Keeps the best that too much on machines was mended to. */
  #mend(machines: readonly number[]): void {
    const mended = mendPlacement(machines, this.#input);
    if (mended === null || this.#input.overfull(mended).length > 0) return;
    if (this.#mended === null || this.#bytesOf(mended) < this.#bytesOf(this.#mended)) {
      this.#mended = mended;
    }
  }

  #machinesOf(columns: Float64Array): readonly number[] {
    const { homes, budgets } = this.#input;
    return homes.map((_, i) => {
      const of = budgets.map((__, m) => columns[columnOf(i, m, budgets.length)]!);
      return of.indexOf(Math.max(...of));
    });
  }

  #bytesOf(machines: readonly number[]): number {
    const { homes, bytes } = this.#input;
    return machines.reduce((sum, m, i) => sum + (m === homes[i] ? 0 : bytes[i]!), 0);
  }

  #countOf(machines: readonly number[]): number {
    return machines.filter((m, i) => m !== this.#input.homes[i]).length;
  }
}
