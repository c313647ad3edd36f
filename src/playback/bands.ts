import type { Program, Signal } from '../instruments/program.ts';

/**
 * The values at which a signal can change what starts, ascending. Between two of them nothing
 * depends on the value, so a value stands for its whole band: by the lowest value in it.
 */
export class Bands {
  readonly #edges: readonly number[];

  constructor(edges: Iterable<number>) {
    this.#edges = [...new Set(edges)].sort((a, b) => a - b);
  }

  /** The lowest value of the band that `value` lies in; -Infinity is written as the least integer. */
  lowest(value: number): number {
    let lo = 0;
    let hi = this.#edges.length;
    while (lo < hi) {
      const middle = (lo + hi) >> 1;
      if (this.#edges[middle]! <= value) lo = middle + 1;
      else hi = middle;
    }
    return lo === 0 ? below : this.#edges[lo - 1]!;
  }

  /** The lowest values of all bands that touch `lo` to `hi`. */
  between(lo: number, hi: number): readonly number[] {
    return [this.lowest(lo), ...this.#edges.filter((edge) => edge > lo && edge <= hi)];
  }
}

/** Stands for the band under the first edge. No test accepts it, since each test's `lo` is an edge. */
const below = Number.MIN_SAFE_INTEGER;

/**
 * The bands of every signal of a program, from the limits of its tests and fades.
 *
 * @param rooms how far headroom may move the limits of controllers apart: each is told exactly
 */
export const bandsOf = (program: Program, rooms: readonly number[]): readonly Bands[] => {
  const edges = program.signals.map(() => [] as number[]);
  const add = (signal: number, lo: number, hi: number): void => {
    edges[signal]!.push(lo, hi + 1);
    if (!hasRoom(program.signals[signal]!)) return;
    for (const room of rooms) edges[signal]!.push(lo - room, hi + room + 1);
  };
  for (const gate of program.gates) {
    for (const { signal, tests } of gate) {
      for (const { lo, hi, signal: other } of tests) add(other ?? signal, lo, hi);
    }
  }
  for (const { fades, change, keys } of program.starts) {
    for (const { signal, lo, hi } of fades) add(signal, lo, hi);
    if (change !== undefined) add(change, keys[0], keys[1]);
  }
  return edges.map((list) => new Bands(list));
};

/** True for what headroom widens: controllers that shape the sound, not those that choose it. */
export const hasRoom = (signal: Signal): boolean =>
  signal.kind === 'controller' && signal.selects !== true;
