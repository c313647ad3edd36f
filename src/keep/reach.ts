import type { Instrument } from '../instruments/instrument.ts';
import type { Start } from '../instruments/program.ts';
import { plain, product, union, type DoubtSet } from '../terms/doubt.ts';
import { contains } from '../terms/range.ts';
import { fadeDoubts, gateDoubts, known, type KnownAlternative } from '../playback/conditions.ts';
import { fadingSignals } from '../playback/fading-signals.ts';
import type { CopyUsage, FileUsage, UsageClass } from '../playback/zone-usage.ts';

/** A start that a class of usage reaches, and the minimal doubt sets under which it does. */
export interface ReachedStart {
  readonly index: number;
  readonly start: Start;
  readonly doubts: readonly DoubtSet[];
}

/** One class of usage, with all it reaches. */
export interface ReachedClass {
  readonly file: FileUsage;
  readonly class: UsageClass;
  readonly starts: readonly ReachedStart[];
}

/** Walks all usage of an instrument in the order of `files`, class by class. */
export function* reachedClasses(
  instrument: Instrument,
  files: readonly FileUsage[],
): Generator<ReachedClass> {
  const reacher = new Reacher(instrument);
  const copies = files.flatMap((file) =>
    file.copies.filter((copy) => copy.instrument === instrument.id).map((copy) => ({ file, copy })),
  );
  for (const { copy } of copies) reacher.learn(copy);
  for (const { file, copy } of copies) {
    for (const one of copy.classes) {
      const starts = reacher.starts(copy, one);
      if (starts.length > 0) yield { file, class: one, starts };
    }
  }
}

interface OpenGate {
  readonly gate: number;
  readonly doubts: readonly DoubtSet[];
}

class Reacher {
  readonly #instrument: Instrument;
  readonly #fading: readonly number[];
  readonly #byGate: readonly (readonly number[])[];
  /** Starts by gate, event and key, made when first asked for. */
  readonly #byKey = new Map<string, readonly number[]>();
  /** What each copy chose over the whole reel, by copy, signal and channel. */
  readonly #chosen = new Map<string, readonly number[]>();
  readonly #open = new Map<string, readonly OpenGate[]>();
  readonly #openOfState = new Map<CopyUsage, Map<number, readonly OpenGate[]>>();

  constructor(instrument: Instrument) {
    const { starts, gates } = instrument.program;
    this.#instrument = instrument;
    this.#fading = fadingSignals(instrument.program);
    const byGate = gates.map(() => [] as number[]);
    starts.forEach(({ gate }, i) => byGate[gate]!.push(i));
    this.#byGate = byGate;
  }

  learn(copy: CopyUsage): void {
    for (const { signal, channel, values } of copy.chosen) {
      const key = choiceKey(copy, signal, channel);
      this.#chosen.set(key, [...new Set([...(this.#chosen.get(key) ?? []), ...values])]);
    }
  }

  starts(copy: CopyUsage, one: UsageClass): readonly ReachedStart[] {
    const reached: ReachedStart[] = [];
    for (const { gate, doubts } of this.#openGates(copy, one)) {
      for (const index of this.#startsAt(gate, one)) {
        const start = this.#instrument.program.starts[index]!;
        if (!contains(start.velocities, one.velocity)) continue;
        const own = start.doubt | one.doubt;
        let all = own === plain ? doubts : product(doubts, [own]);
        if (start.fades.length > 0) {
          const life = copy.lives[one.life] ?? [];
          all = product(all, fadeDoubts(start.fades, start.releaseSeconds, life, this.#fading));
        }
        if (all.length > 0) reached.push({ index, start, doubts: all });
      }
    }
    return reached;
  }

  #startsAt(gate: number, { event, key }: UsageClass): readonly number[] {
    const at = `${String(gate)} ${event} ${String(key)}`;
    let found = this.#byKey.get(at);
    if (found === undefined) {
      const { starts } = this.#instrument.program;
      found = this.#byGate[gate]!.filter((index) => {
        const start = starts[index]!;
        return start.event === event && contains(start.keys, key);
      });
      this.#byKey.set(at, found);
    }
    return found;
  }

  #openGates(copy: CopyUsage, { state, channel }: UsageClass): readonly OpenGate[] {
    let ofCopy = this.#openOfState.get(copy);
    if (ofCopy === undefined) this.#openOfState.set(copy, (ofCopy = new Map<number, OpenGate[]>()));
    const at = state * 16 + channel;
    let found = ofCopy.get(at);
    if (found === undefined) {
      const signals = copy.states[state]!.map((index, signal) =>
        known(copy.alternatives[index]!, this.#chosenBy(copy, signal, channel)),
      );
      found = this.#openFor(signals);
      ofCopy.set(at, found);
    }
    return found;
  }

  #chosenBy(copy: CopyUsage, signal: number, channel: number): readonly number[] {
    const own = this.#chosen.get(choiceKey(copy, signal, channel));
    return own ?? this.#chosen.get(choiceKey(copy, signal, -1)) ?? [];
  }

  #openFor(signals: readonly (readonly KnownAlternative[])[]): readonly OpenGate[] {
    const text = JSON.stringify(signals);
    let found = this.#open.get(text);
    if (found === undefined) {
      found = this.#instrument.program.gates.flatMap((gate, i) => {
        const doubts = gateDoubts(gate, signals);
        return doubts.length === 0 ? [] : [{ gate: i, doubts }];
      });
      this.#open.set(text, found);
    }
    return found;
  }
}

const choiceKey = ({ copy }: CopyUsage, signal: number, channel: number): string =>
  `${copy}\n${String(signal)}\n${String(channel)}`;

/** M(z) for every zone: the minimal doubt sets under which the score reaches it; empty: it does not. */
export const zoneDoubts = (
  instrument: Instrument,
  files: readonly FileUsage[],
): readonly (readonly DoubtSet[])[] => {
  const doubts: (readonly DoubtSet[])[] = instrument.zones.map(() => []);
  for (const { starts } of reachedClasses(instrument, files)) {
    for (const { start, doubts: some } of starts) {
      doubts[start.zone] = union(doubts[start.zone]!, some);
    }
  }
  return doubts;
};
