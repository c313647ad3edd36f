import { selects } from '../instruments/switches.ts';
import type { Program } from '../instruments/program.ts';
import type { Range } from '../terms/range.ts';
import type { CopyStream } from './copy-stream.ts';
import { fadingSignals } from './fading-signals.ts';

/** A controller and how far it goes. */
export interface ControllerRange {
  readonly number: number;
  readonly range: Range;
}

/** Controllers that shape the sound of a program or start it, and do not choose what it plays: ascending. */
export const shapingControllers = (program: Program): readonly number[] => {
  const numbers = new Set<number>();
  const asked = program.gates.flatMap((gate) =>
    gate.flatMap(({ signal, tests }) => [signal, ...tests.map((test) => test.signal ?? signal)]),
  );
  const changing = program.starts.flatMap(({ change }) => change ?? []);
  for (const index of [...asked, ...changing, ...fadingSignals(program)]) {
    const signal = program.signals[index]!;
    if (signal.kind === 'controller' && !selects(signal)) numbers.add(signal.number);
  }
  return [...numbers].sort((a, b) => a - b);
};

/** The lowest and highest value of each shaping controller in a stream; those never sent are left out. */
export const controllerRanges = (
  program: Program,
  { length, status, data1, data2 }: CopyStream,
): readonly ControllerRange[] => {
  const shaping = new Set(shapingControllers(program));
  if (shaping.size === 0) return [];
  const ranges = new Map<number, Range>();
  for (let at = 0; at < length; at++) {
    if (status[at]! >> 4 !== 0xb || !shaping.has(data1[at]!)) continue;
    const value = data2[at]!;
    const [lo, hi] = ranges.get(data1[at]!) ?? [value, value];
    ranges.set(data1[at]!, [Math.min(lo, value), Math.max(hi, value)]);
  }
  return [...ranges]
    .map(([number, range]) => ({ number, range }))
    .sort((a, b) => a.number - b.number);
};
