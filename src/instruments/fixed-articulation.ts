import { doubtSet } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';
import { everyArticulation, type Instrument } from './instrument.ts';
import type { Condition, Program } from './program.ts';
import { selects } from './switches.ts';

/** Holds no key. */
const nowhere: Range = [Infinity, -Infinity];

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
  if (found === undefined) fixed.set(articulation, (found = fix(instrument, articulation)));
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
