import { plain } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import type { Condition, Signal, Test } from '../../program.ts';
import {
  bendRange,
  condition,
  covers,
  polyPressureTests,
  sevenBits,
  testsOf,
} from './controller-gates.ts';
import type { Parts } from './parts.ts';
import { engine, rangeReadings, type RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/** Tempo in millionths of a beat per minute, as the engine counts it. */
const perBeat = 1_000_000;

/** One microsecond for a beat. */
const fastest = 60 * perBeat * perBeat;

/** A pair of limits on one signal of the performance. */
interface StateGate {
  readonly lo: string;
  readonly hi: string;
  readonly allowed: Range;
  readonly signal: Signal;
  /** Open engines do not look at it. */
  readonly mayBeIgnored: boolean;
}

/** The open SFZ documentation, "performance parameters"; what engines ignore: by trial. */
const stateGates: readonly StateGate[] = [
  {
    lo: 'lobend',
    hi: 'hibend',
    allowed: bendRange,
    signal: { kind: 'bend' },
    mayBeIgnored: true,
  },
  {
    lo: 'lochanaft',
    hi: 'hichanaft',
    allowed: sevenBits,
    signal: { kind: 'pressure' },
    mayBeIgnored: false,
  },
  {
    lo: 'loprog',
    hi: 'hiprog',
    allowed: sevenBits,
    signal: { kind: 'program' },
    mayBeIgnored: false,
  },
  {
    lo: 'lochan',
    hi: 'hichan',
    allowed: [1, 16],
    signal: { kind: 'channel' },
    mayBeIgnored: true,
  },
];

/** What bend, pressure, program, channel and tempo have to be; null when that can never be. */
export const stateConditions = (
  opcodes: RegionOpcodes,
  parts: Parts,
): readonly Condition[] | null => {
  const conditions = [
    ...stateGates.map((gate) => stateCondition(gate, opcodes, parts)),
    tempoCondition(opcodes, parts),
    polyPressureCondition(opcodes, parts),
  ];
  const real = conditions.filter((one) => one !== 'always');
  return real.includes(null) ? null : real.filter((one) => one !== null);
};

const stateCondition = (
  { lo, hi, allowed, signal, mayBeIgnored }: StateGate,
  opcodes: RegionOpcodes,
  parts: Parts,
): Condition | null | 'always' => {
  if (!opcodes.has(lo) && !opcodes.has(hi)) return 'always';
  const readings = rangeReadings(
    { value: opcodes.whole(lo), absent: allowed[0] },
    { value: opcodes.whole(hi), absent: allowed[1] },
    allowed,
  );
  const every = signal.kind === 'bend' ? bendRange : allowed;
  if (covers(readings, every)) return 'always';
  const ignored: readonly Test[] = mayBeIgnored
    ? [{ lo: every[0], hi: every[1], doubt: engine }]
    : [];
  return condition(parts.signal(signal), [...testsOf(readings), ...ignored]);
};

/** Some engines do not follow a tempo that changes, so that any may be in force for them. */
const tempoCondition = (opcodes: RegionOpcodes, parts: Parts): Condition | 'always' => {
  if (!opcodes.has('lobpm') && !opcodes.has('hibpm')) return 'always';
  const lo = Math.max(opcodes.number('lobpm') ?? 0, 0);
  const hi = opcodes.number('hibpm') ?? 500;
  const plainly = { lo: Math.ceil(lo * perBeat - 0.5), hi: Math.floor(hi * perBeat + 0.5) };
  return {
    signal: parts.signal({ kind: 'tempo' }),
    tests: [
      ...(plainly.lo <= plainly.hi ? [{ ...plainly, doubt: plain }] : []),
      { lo: 0, hi: fastest, doubt: engine },
    ],
  };
};

const polyPressureCondition = (
  opcodes: RegionOpcodes,
  parts: Parts,
): Condition | null | 'always' => {
  const readings = polyPressureReadings(opcodes);
  if (readings === null) return 'always';
  const { signal, tests } = polyPressureTests(parts, readings);
  return condition(signal, tests);
};

/** The limits on poly pressure; null where there are none. */
export const polyPressureReadings = (opcodes: RegionOpcodes): readonly RangeReading[] | null => {
  if (!opcodes.has('lopolyaft') && !opcodes.has('hipolyaft')) return null;
  const readings = rangeReadings(
    { value: opcodes.whole('lopolyaft'), absent: 0 },
    { value: opcodes.whole('hipolyaft'), absent: 127 },
    sevenBits,
  );
  return covers(readings, sevenBits) ? null : readings;
};
