import { mostOf, type Capacity } from './capacity.ts';
import type { Cut } from './cut.ts';

/** Instruments to place, and all that a placement has to keep to. */
export interface PlacementProgram {
  readonly homes: readonly number[];
  /** Of each machine, in bytes; null: no limit. */
  readonly budgets: readonly (number | null)[];
  readonly capacity: Capacity;
  readonly cuts: readonly Cut[];
  /** What it costs to have each instrument anywhere but at home: least in all. */
  readonly costs: readonly number[];
  /** Bytes that each moves, and how many all may move; null: any number. */
  readonly limit: { readonly bytes: readonly number[]; readonly most: number } | null;
}

/** A linear program in rows, for a solver: columns from 0 to 1 that are whole, then others from 0. */
export interface LinearProgram {
  readonly whole: number;
  readonly others: number;
  /** Of each column, to be least in all. */
  readonly costs: readonly number[];
  readonly rows: readonly Row[];
}

export interface Row {
  readonly low: number;
  readonly high: number;
  readonly terms: readonly (readonly [column: number, value: number])[];
}

const mebibyte = 2 ** 20;
const kibibyte = 2 ** 10;

/**
 * Bytes above a budget that the program lets pass. Solvers are exact to a millionth, which is a byte of
 * a MiB: what just fits must not be ruled out. What does not fit is found out later.
 */
const slack = 4;

/** The column that is 1 where the instrument is on the machine. */
export const columnOf = (instrument: number, machine: number, machines: number): number =>
  instrument * machines + machine;

/**
 * The program as rows. Capacity is in MiB. What moves is in KiB: there a byte is more than the solver
 * overlooks, and in MiB it is not.
 */
export const linearProgram = (program: PlacementProgram): LinearProgram => {
  const { homes, budgets, capacity, cuts, costs, limit } = program;
  const machines = budgets.length;
  const whole = homes.length * machines;
  const at = (instrument: number, machine: number): number =>
    columnOf(instrument, machine, machines);
  const limited = budgets.flatMap((budget, m) => (budget === null ? [] : [{ budget, m }]));
  /** The column that says what part of a pool is there. */
  const pool = (p: number, row: number): number => whole + p * limited.length + row;
  const moves = (bytes: readonly number[], unit: number): (readonly [number, number])[] =>
    homes.flatMap((home, i) =>
      budgets.flatMap((_, m) => (m === home ? [] : [[at(i, m), bytes[i]! / unit] as const])),
    );

  const rows: Row[] = homes.map((_, i) => ({
    low: 1,
    high: 1,
    terms: budgets.map((__, m) => [at(i, m), 1] as const),
  }));
  limited.forEach(({ budget, m }, row) => {
    rows.push({
      low: -Infinity,
      high: (budget + slack) / mebibyte,
      terms: [
        ...capacity.own.map((bytes, i) => [at(i, m), bytes / mebibyte] as const),
        ...capacity.pools.map((each, p) => [pool(p, row), mostOf(each) / mebibyte] as const),
      ],
    });
    capacity.pools.forEach((each, p) => {
      for (const { instrument, bytes } of each.members) {
        const terms = [
          [pool(p, row), 1],
          [at(instrument, m), -bytes / mostOf(each)],
        ] as const;
        rows.push({ low: 0, high: Infinity, terms });
      }
    });
  });
  for (const { machine, all, unless } of cuts) {
    const terms = [
      ...all.map((i) => [at(i, machine), 1] as const),
      ...unless.map((i) => [at(i, machine), -1] as const),
    ];
    rows.push({ low: -Infinity, high: all.length - 1, terms });
  }
  if (limit !== null) {
    const high = (limit.most + 0.5) / kibibyte;
    rows.push({ low: -Infinity, high, terms: moves(limit.bytes, kibibyte) });
  }
  const others = capacity.pools.length * limited.length;
  const columnCosts = new Array<number>(whole + others).fill(0);
  for (const [column, cost] of moves(costs, kibibyte)) columnCosts[column] = cost;
  return { whole, others, costs: columnCosts, rows };
};

/** A value of the program, back in the unit of its costs. */
export const costOf = (value: number): number => value * kibibyte;

/** A difference in cost that does not count, in the program's unit: half of one. */
export const sameCost = 0.5 / kibibyte;
