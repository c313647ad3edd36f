import { machineMemory } from '../../memory/machine-memory.ts';
import { placeInstruments } from '../../memory/placement/place-instruments.ts';
import type { ReelLoads, State } from '../../memory/reel/reel-loads.ts';
import type { Machine } from '../../template/machine.ts';
import type { Placement } from './reel-memory.ts';

/**
 * Where instruments would go so that all that the reel needs fits (design, section 7).
 *
 * @param whole what is needed
 * @param machines with the budgets that count
 */
export const placement = async (
  loads: ReelLoads,
  whole: State,
  machines: readonly Machine[],
): Promise<Omit<Placement, 'lines'>> => {
  const instruments = loads.members.map(({ machine }, m) => ({
    loaded: loads.loaded(m, whole),
    home: machine,
    bytes: loads.instrument(m, whole).bytes,
  }));
  const {
    state,
    machines: places,
    gap,
  } = await placeInstruments(
    instruments,
    machines.map(({ budget }) => budget),
  );
  const moves = instruments.flatMap(({ home, bytes }, i) => {
    const to = places[i]!;
    if (to === home) return [];
    const instrument = loads.members[i]!.instrument.id;
    return [{ instrument, from: machines[home]!.id, to: machines[to]!.id, bytes }];
  });
  return {
    state,
    moves,
    bytes: moves.reduce((sum, { bytes }) => sum + bytes, 0),
    gap,
    machines: machines.map(({ id, budget }, m) => {
      const here = instruments.flatMap(({ loaded }, i) => (places[i] === m ? [loaded] : []));
      const { bytes, low, high } = machineMemory(here);
      return { id, budget, bytes, low, high, fits: budget === null ? null : high <= budget };
    }),
  };
};
