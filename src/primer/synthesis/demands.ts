import type { Program, Signal, Start } from '../../instruments/program.ts';
import { plain } from '../../terms/doubt.ts';
import { intersect, type Range } from '../../terms/range.ts';

/** What messages set, each with one value at a time; a switch by the number of its signal. */
export type Knob =
  | `controller ${number}`
  | `switch ${number}`
  | 'bend'
  | 'pressure'
  | 'poly-pressure'
  | 'program'
  | 'patch'
  | 'channel'
  | 'tempo'
  | 'previous-key'
  | 'previous-velocity'
  | `held ${number}`;

/** What has to hold when a start happens; what is not named may be anything. */
export type Demand = ReadonlyMap<Knob, readonly Range[]>;

/** Two signals that follow one controller are set together. */
export const knobOf = (signal: Signal, index: number): Knob => {
  switch (signal.kind) {
    case 'controller':
      return `controller ${signal.number}`;
    case 'switch':
      return `switch ${index}`;
    case 'held':
      return `held ${index}`;
    default:
      return signal.kind;
  }
};

/** More ways to one start than this are not looked at. */
const mostDemands = 8;

/**
 * The plain tests of a start's gate and its fades, turned round: every way in which all hold. Empty
 * where none does.
 */
export const demandsOf = ({ signals, gates }: Program, start: Start): readonly Demand[] => {
  let demands: readonly Demand[] = [new Map()];
  const narrowed = (signal: number, ranges: readonly Range[]): readonly Demand[] =>
    demands.flatMap((demand) => {
      const own = signals[signal]!;
      const knob = knobOf(own, signal);
      const known = demand.get(knob);
      // Of several memories of the note before, one note answers all: it is among the keys of each.
      const possible =
        own.kind === 'previous-key' && own.keys !== undefined ? common(own.keys, ranges) : ranges;
      const both = known === undefined ? possible : common(known, possible);
      return both.length === 0 ? [] : [new Map([...demand, [knob, both] as const])];
    });
  for (const { signal, tests } of gates[start.gate]!) {
    const bySignal = new Map<number, Range[]>();
    for (const { lo, hi, doubt, signal: other = signal } of tests) {
      if (doubt !== plain) continue;
      bySignal.set(other, [...(bySignal.get(other) ?? []), [lo, hi]]);
    }
    demands = [...bySignal]
      .flatMap(([asked, ranges]) => narrowed(asked, ranges))
      .slice(0, mostDemands);
  }
  for (const { signal, lo, hi } of start.fades) demands = narrowed(signal, [[lo, hi]]);
  return demands;
};

const common = (a: readonly Range[], b: readonly Range[]): readonly Range[] =>
  a.flatMap((one) => b.flatMap((other) => [intersect(one, other)].filter((both) => both !== null)));
