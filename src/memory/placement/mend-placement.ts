import type { HighFigures } from './high-figures.ts';
import { crewsOf } from './placement-types.ts';

/** What placements are judged by. */
interface Judge {
  readonly homes: readonly number[];
  readonly bytes: readonly number[];
  readonly budgets: readonly (number | null)[];
  readonly figures: HighFigures;
}

/** Moves for each instrument; far more than it takes where there is a way. */
const mostMoves = 4;

/**
 * Makes a placement with too much on some machine fit by moving one instrument after the other, each
 * time the one that leaves least above the budgets; then whoever can goes back home, the largest first.
 * Not the best way, but mostly one.
 *
 * @returns null where no move is for the better any longer and still not everything fits
 */
export const mendPlacement = (
  start: readonly number[],
  { homes, bytes, budgets, figures: { together } }: Judge,
): readonly number[] | null => {
  const machines = [...start];
  const crews = crewsOf(machines, budgets.length).map((crew) => [...crew]);
  const without = (crew: readonly number[], i: number): number[] =>
    crew.filter((each) => each !== i);
  const including = (crew: readonly number[], i: number): number[] =>
    [...crew, i].sort((a, b) => a - b);
  const overOf = (crew: readonly number[], machine: number): number => {
    const budget = budgets[machine] ?? null;
    return budget === null ? 0 : Math.max(0, together(crew) - budget);
  };
  const over = crews.map(overOf);
  const move = (i: number, to: number): void => {
    const from = machines[i]!;
    crews[from] = without(crews[from]!, i);
    crews[to] = including(crews[to]!, i);
    over[from] = overOf(crews[from], from);
    over[to] = overOf(crews[to], to);
    machines[i] = to;
  };
  /** By how much less would be above the budgets. */
  const gain = (i: number, to: number): number => {
    const from = machines[i]!;
    const left = overOf(without(crews[from]!, i), from) + overOf(including(crews[to]!, i), to);
    return over[from]! + over[to]! - left;
  };
  for (let moves = 0; over.some((each) => each > 0); moves++) {
    if (moves === mostMoves * machines.length) return null;
    let best: { readonly i: number; readonly to: number; readonly gain: number } | null = null;
    for (const [i, from] of machines.entries()) {
      if (over[from] === 0) continue;
      for (const to of budgets.keys()) {
        const each = { i, to, gain: to === from ? 0 : gain(i, to) };
        if (each.gain > (best?.gain ?? 0)) best = each;
      }
    }
    if (best === null) return null;
    move(best.i, best.to);
  }
  const away = [...machines.keys()].filter((i) => machines[i] !== homes[i]);
  for (const i of away.sort((a, b) => bytes[b]! - bytes[a]! || a - b)) {
    if (gain(i, homes[i]!) >= 0) move(i, homes[i]!);
  }
  return machines;
};
