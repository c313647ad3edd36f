import type { Condition, Program, Start, StartEvent } from '../../instruments/program.ts';
import { fadingSignals } from '../../playback/fading-signals.ts';
import { plain } from '../../terms/doubt.ts';
import { contains } from '../../terms/range.ts';

/** The signals of a program at one event. */
export type Values = readonly number[];

/** A program read plainly, with its starts found by event, gate and key. */
export class PlainProgram {
  readonly program: Program;
  /** Signals that something asks for by the plain reading: only those matter. */
  readonly asked: ReadonlySet<number>;
  readonly fading: readonly number[];
  /** Signals whose messages start something. */
  readonly changes: ReadonlySet<number>;
  readonly listens: ReadonlySet<StartEvent>;
  /** Controllers that hold what is released, each with the value from which it is down. */
  readonly pedals: ReadonlyMap<number, number>;
  readonly #byGate: readonly (readonly number[])[];
  readonly #gated: readonly number[];
  readonly #open = new Map<string, readonly number[]>();
  readonly #at = new Map<string, readonly number[]>();

  constructor(program: Program) {
    this.program = program;
    const byGate = program.gates.map(() => [] as number[]);
    const changes = new Set<number>();
    program.starts.forEach(({ gate, silent, keys, change }, i) => {
      if (silent === true || keys[0] > keys[1]) return;
      byGate[gate]!.push(i);
      if (change !== undefined) changes.add(change);
    });
    this.#byGate = byGate;
    const gated = new Set<number>();
    for (const { signal, tests } of program.gates.flat()) {
      for (const test of tests) if (test.doubt === plain) gated.add(test.signal ?? signal);
    }
    this.fading = fadingSignals(program);
    this.changes = changes;
    this.#gated = [...gated].sort((a, b) => a - b);
    this.asked = new Set([...gated, ...this.fading, ...changes]);
    this.listens = new Set(program.starts.map(({ event }) => event));
    const holds = this.listens.has('release') || this.fading.length > 0 ? program.holds : [];
    this.pedals = new Map(
      holds.flatMap(({ oneShot, pedals: [plainly] }) => {
        const sustain = plainly?.sustain ?? null;
        return oneShot || sustain === null ? [] : [[sustain.controller, sustain.down] as const];
      }),
    );
  }

  /** Starts, doubtful ones too, that an event makes while signals are at `values`; fades left aside. */
  starts(event: StartEvent, key: number, velocity: number, values: Values): readonly number[] {
    const found: number[] = [];
    for (const gate of this.#openGates(values)) {
      for (const index of this.#startsAt(event, gate, key)) {
        if (contains(this.program.starts[index]!.velocities, velocity)) found.push(index);
      }
    }
    return found;
  }

  #openGates(values: Values): readonly number[] {
    const text = this.#gated.map((signal) => values[signal]).join();
    let open = this.#open.get(text);
    if (open === undefined) {
      open = this.program.gates.flatMap((gate, i) =>
        this.#byGate[i]!.length > 0 && gate.every((one) => holds(one, values)) ? [i] : [],
      );
      this.#open.set(text, open);
    }
    return open;
  }

  #startsAt(event: StartEvent, gate: number, key: number): readonly number[] {
    const at = `${event} ${String(gate)} ${String(key)}`;
    let found = this.#at.get(at);
    if (found === undefined) {
      found = this.#byGate[gate]!.filter((index) => {
        const start = this.program.starts[index]!;
        return start.event === event && contains(start.keys, key);
      });
      this.#at.set(at, found);
    }
    return found;
  }
}

const holds = ({ signal, tests }: Condition, values: Values): boolean =>
  tests.some(
    ({ lo, hi, doubt, signal: other }) =>
      doubt === plain && values[other ?? signal]! >= lo && values[other ?? signal]! <= hi,
  );

/** Every fade of a start is above zero at these values. */
export const isHeard = ({ fades }: Start, values: Values): boolean =>
  fades.every(({ signal, lo, hi }) => values[signal]! >= lo && values[signal]! <= hi);

const known = new WeakMap<Program, PlainProgram>();

/** {@link PlainProgram} of a program, made once. */
export const plainProgram = (program: Program): PlainProgram => {
  let found = known.get(program);
  if (found === undefined) known.set(program, (found = new PlainProgram(program)));
  return found;
};
