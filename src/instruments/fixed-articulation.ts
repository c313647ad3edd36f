import { doubtSet } from '../terms/doubt.ts';
import { intersect, type Range } from '../terms/range.ts';
import { everyArticulation, type Instrument } from './instrument.ts';
import type { Condition, Gate, Program, Start, Test } from './program.ts';
import { nowhere } from './nowhere.ts';
import { selects } from './switches.ts';

const noSwitch = doubtSet('no-switch');

const programs = new WeakMap<Program, Map<number, Program>>();

/**
 * The program of an instrument that plays one articulation whatever switches say: how a track per
 * articulation is loaded. Starts keep their numbers; those of other articulations can't happen, and
 * conditions on switches are dropped. What belongs to every articulation stays.
 *
 * @param articulation index into {@link Instrument.articulations}
 */
export const withArticulation = (instrument: Instrument, articulation: number): Program => {
  const { program } = instrument;
  let fixed = programs.get(program);
  if (fixed === undefined) programs.set(program, (fixed = new Map<number, Program>()));
  let found = fixed.get(articulation);
  if (found === undefined) {
    const { switchKeys } = instrument.articulations[articulation]!;
    found = switchKeys === undefined ? fix(instrument, articulation) : hold(program, switchKeys);
    fixed.set(articulation, found);
  }
  return found;
};

const fix = ({ articulations, program }: Instrument, articulation: number): Program => ({
  ...program,
  gates: program.gates.map((gate) => gate.filter((one) => !asksSwitches(program, one))),
  starts: program.starts.map((start) => {
    const plays =
      start.articulation === articulation ||
      articulations[start.articulation]!.name === everyArticulation;
    return plays ? { ...start, doubt: start.doubt & ~noSwitch } : { ...start, keys: nowhere };
  }),
});

const asksSwitches = ({ signals }: Program, { signal, tests }: Condition): boolean =>
  [signal, ...tests.map((test) => test.signal ?? signal)].some((one) => selects(signals[one]!));

/** The switch that the keys belong to stays where they put it; switches of other keys go on. */
const hold = (program: Program, keys: Range): Program => {
  const held = program.gates.map((gate) => heldGate(program, gate, keys));
  return {
    ...program,
    gates: held.map((gate) => gate ?? []),
    starts: program.starts.map((start): Start =>
      held[start.gate] === null ? { ...start, keys: nowhere } : start,
    ),
  };
};

/** Null for a gate that never opens. */
const heldGate = ({ signals }: Program, gate: Gate, keys: Range): Gate | null => {
  const left: Condition[] = [];
  for (const condition of gate) {
    const signal = signals[condition.signal]!;
    const isOwn =
      signal.kind === 'switch' && signal.keys.some((range) => intersect(range, keys) !== null);
    if (!isOwn) left.push(condition);
    else if (!condition.tests.some((test) => accepts(condition, test, keys))) return null;
  }
  return left;
};

const accepts = ({ signal }: Condition, test: Test, keys: Range): boolean =>
  (test.signal ?? signal) === signal && intersect([test.lo, test.hi], keys) !== null;
