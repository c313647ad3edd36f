import { figureSum, type Figure } from '../../memory/figure.ts';
import type { Change, ReelLoads, State } from '../../memory/reel/reel-loads.ts';
import type { Machine } from '../../template/machine.ts';
import type { PlanCue } from '../plan.ts';
import type { CueInstrument, CueMachine, CueMemory } from './reel-memory.ts';

/** A machine in one state. */
export const machineStates = (
  loads: ReelLoads,
  { budget }: Machine,
  machine: number,
  state: State,
): { readonly figure: Figure; readonly fits: boolean | null } => {
  const figure = loads.machine(machine, state);
  // Judged on the high figure (design, section 7).
  return { figure, fits: budget === null ? null : figure.high <= budget };
};

/** All machines in one state, and what came to it. @param before null: nothing was loaded */
export const machinesAt = (
  loads: ReelLoads,
  machines: readonly Machine[],
  before: State | null,
  state: State,
): readonly CueMachine[] =>
  machines.map((machine, m) => {
    const { figure, fits } = machineStates(loads, machine, m, state);
    return { id: machine.id, ...figure, ...loads.machineChange(m, before, state), fits };
  });

/** Over machines all adds up. */
export const sumOf = (machines: readonly CueMachine[]): Figure & Change => ({
  ...figureSum(machines),
  load: machines.reduce((sum, { load }) => sum + load, 0),
  mayGo: machines.reduce((sum, { mayGo }) => sum + mayGo, 0),
});

/** Each cue by itself, and against the one before it. */
export const cueStates = (
  loads: ReelLoads,
  machines: readonly Machine[],
  cues: readonly PlanCue[],
  states: readonly State[],
): readonly CueMemory[] =>
  cues.map(({ id, seconds, state: read }, cue) => {
    const state = states[cue]!;
    const before = cue === 0 ? null : states[cue - 1]!;
    const own = machinesAt(loads, machines, before, state);
    return {
      ...{ id, seconds, state: read },
      ...sumOf(own),
      machines: own,
      instruments: instrumentsAt(loads, machines, before, state),
    };
  });

/** Instruments of which something is loaded, or was before. @param before null: nothing was loaded */
export const instrumentsAt = (
  loads: ReelLoads,
  machines: readonly Machine[],
  before: State | null,
  state: State,
): readonly CueInstrument[] =>
  loads.members.flatMap(({ instrument, machine }, m): readonly CueInstrument[] => {
    const { bytes, low, high, basis } = loads.instrument(m, state);
    const need = loads.need(m, state);
    const masks = need.kind === 'shared' ? [need.zones] : [...need.copies.values()];
    const zones = loadedZones(masks);
    const change = loads.instrumentChange(m, before, state);
    // What goes as a whole is part of the change.
    if (zones === 0 && change.mayGo === 0) return [];
    const id = instrument.id;
    return [{ id, machine: machines[machine]!.id, bytes, low, high, basis, ...change, zones }];
  });

/** Zones that any copy has loaded. */
const loadedZones = (masks: readonly Uint8Array[]): number => {
  const [first] = masks;
  if (first === undefined) return 0;
  return first.reduce((sum, _, zone) => sum + Number(masks.some((mask) => mask[zone] === 1)), 0);
};
