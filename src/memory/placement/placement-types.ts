import type { LoadedInstrument } from '../loaded.ts';

/** An instrument with what is needed of it, and where it is now. */
export interface PlacedInstrument {
  readonly loaded: LoadedInstrument;
  /** Index of the machine where it is. */
  readonly home: number;
  /** Bytes that moving it moves: a whole number, at least 0. */
  readonly bytes: number;
}

export interface PlacementResult {
  /**
   * `fits`: nothing has to move. `placed`: moves were found. `impossible`: there is no way, and that is
   * proved. `open`: none was found within the effort that is spent, and none is ruled out.
   */
  readonly state: 'fits' | 'placed' | 'impossible' | 'open';
  /** Index of the machine of each; where it is now, if nothing was found. */
  readonly machines: readonly number[];
  /** How many bytes less another placement might move; 0: none moves less, and that is proved. */
  readonly gap: number;
}

/** Who is on each machine: indices of instruments, ascending. */
export type Crews = readonly (readonly number[])[];

export const crewsOf = (machines: readonly number[], count: number): Crews => {
  const crews = Array.from({ length: count }, (): number[] => []);
  machines.forEach((machine, i) => crews[machine]!.push(i));
  return crews;
};
