import { loadingGroups } from '../../memory/groups/loading-groups.ts';
import type { ReelLoads, State } from '../../memory/reel/reel-loads.ts';
import type { Machine } from '../../template/machine.ts';
import type { PlanCue } from '../plan.ts';
import { instrumentsAt, machinesAt, machineStates, sumOf } from './cue-memory.ts';
import type { LoadingGroup, LoadingGroups } from './reel-memory.ts';

/** The fewest runs of cues that fit when each is loaded at once (design, section 7). */
export const groupCues = (
  loads: ReelLoads,
  machines: readonly Machine[],
  cues: readonly PlanCue[],
  states: readonly State[],
): LoadingGroups => {
  /** By first cue, the state of each run that begins there, as far as it was asked for. */
  const runs = states.map((state) => [state]);
  const run = (from: number, to: number): State => {
    const own = runs[from]!;
    while (own.length <= to - from) {
      own.push(loads.join(own.at(-1)!, states[from + own.length]!));
    }
    return own[to - from]!;
  };
  const fits = (state: State): boolean =>
    machines.every((machine, m) => machineStates(loads, machine, m, state).fits !== false);
  const ends = loadingGroups({
    cues: cues.length,
    fits: (from, to) => fits(run(from, to)),
    change: (from, to, next) =>
      machines.reduce(
        (sum, _, m) => sum + loads.machineChange(m, run(from, to), run(to + 1, next)).load,
        0,
      ),
  });
  const groups = ends.map((end, g): LoadingGroup => {
    const first = g === 0 ? 0 : ends[g - 1]! + 1;
    const before = g === 0 ? null : run(g === 1 ? 0 : ends[g - 2]! + 1, first - 1);
    const state = run(first, end);
    const own = machinesAt(loads, machines, before, state);
    return {
      cues: cues.slice(first, end + 1).map(({ id }) => id),
      ...sumOf(own),
      machines: own,
      instruments: instrumentsAt(loads, machines, before, state),
      seconds: rounded(loads.seconds(before, state)),
    };
  });
  const changes = groups.slice(1);
  return {
    groups,
    load: changes.reduce((sum, { load }) => sum + load, 0),
    seconds: rounded(
      changes.reduce<number | null>(
        (sum, { seconds }) => (sum === null || seconds === null ? null : sum + seconds),
        0,
      ),
    ),
    alone: groups.flatMap((group) =>
      machines.flatMap(({ id: machine, budget }, m) => {
        const { high, fits: isIn } = group.machines[m]!;
        if (isIn !== false) return [];
        return [{ cue: group.cues[0]!, machine, missing: high - budget! }];
      }),
    ),
  };
};

const rounded = (seconds: number | null): number | null =>
  seconds === null ? null : Math.round(seconds * 1000) / 1000;
