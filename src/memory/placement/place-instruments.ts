import { machineMemory } from '../machine-memory.ts';
import { capacityOf } from './capacity.ts';
import { highFigures } from './high-figures.ts';
import { crewsOf, type PlacedInstrument, type PlacementResult } from './placement-types.ts';
import { Search } from './search.ts';

/**
 * A machine for each instrument so that the high figure of every machine is within its budget (design,
 * section 7). Of all such ways the one that moves the fewest bytes; of those, the one that moves the
 * fewest instruments. What is loaded nothing of stays where it is.
 *
 * It is a mixed integer program for the solver HiGHS; what that finds is held against `machineMemory`
 * in whole bytes. The effort is limited: see `state` and `gap`. That the fewest instruments move is
 * certain only where the limit was not reached. Same input, same output.
 *
 * @param budgets of each machine, in bytes; null: no limit
 */
export const placeInstruments = async (
  instruments: readonly PlacedInstrument[],
  budgets: readonly (number | null)[],
): Promise<PlacementResult> => {
  const homes = instruments.map(({ home }) => home);
  const overfull = (machines: readonly number[]): readonly number[] =>
    crewsOf(machines, budgets.length).flatMap((crew, m) => {
      const budget = budgets[m] ?? null;
      if (budget === null) return [];
      return machineMemory(crew.map((i) => instruments[i]!.loaded)).high > budget ? [m] : [];
    });
  if (overfull(homes).length === 0) return { state: 'fits', machines: homes, gap: 0 };

  const loaded = instruments.flatMap(({ loaded: { copies } }, i) =>
    copies.some(({ zones }) => zones.includes(1)) ? [i] : [],
  );
  const active = loaded.map((i) => instruments[i]!);
  const figures = highFigures(active.map((each) => each.loaded));
  const { loadSolver } = await import('./solver.ts');
  const search = new Search({
    solver: await loadSolver(),
    homes: active.map(({ home }) => home),
    bytes: active.map(({ bytes }) => bytes),
    budgets,
    figures,
    capacity: capacityOf(
      active.map((each) => each.loaded),
      figures,
    ),
    overfull: (machines) => overfull(everywhere(machines)),
  });
  const everywhere = (machines: readonly number[]): readonly number[] => {
    const all = [...homes];
    loaded.forEach((i, a) => (all[i] = machines[a]!));
    return all;
  };
  const { state, machines, gap } = search.run();
  return { state, machines: everywhere(machines), gap };
};
