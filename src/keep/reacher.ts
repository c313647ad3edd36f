import type { Program, Start } from '../instruments/program.ts';
import { askedRanges, switchKeys } from '../instruments/switches.ts';
import { hasRoom } from '../playback/bands.ts';
import { fadeDoubts, gateDoubts, known, type KnownAlternative } from '../playback/conditions.ts';
import { fadingSignals } from '../playback/fading-signals.ts';
import { anyHold, type CopyUsage, type UsageClass } from '../playback/zone-usage.ts';
import type { Headroom } from '../template/template.ts';
import { plain, product, type DoubtSet } from '../terms/doubt.ts';
import { contains, type Range } from '../terms/range.ts';

/** A start that a class of usage reaches, and the minimal doubt sets under which it does. */
export interface ReachedStart {
  readonly index: number;
  readonly start: Start;
  readonly doubts: readonly DoubtSet[];
}

interface OpenGate {
  readonly gate: number;
  readonly doubts: readonly DoubtSet[];
}

/** Finds what classes of usage reach in a program, once all copies of the reel have been learned. */
export class Reacher {
  readonly #program: Program;
  readonly #fading: readonly number[];
  readonly #byGate: readonly (readonly number[])[];
  readonly #switches: ReadonlySet<number>;
  readonly #asked: readonly (readonly Range[])[];
  /** Starts by event and key, then by gate, made when first asked for. */
  readonly #byKey = new Map<string, (readonly number[] | undefined)[]>();
  /** Starts that fade and are held alike have one number. */
  readonly #fadeOf: readonly number[];
  /** What each copy chose over the whole reel, by copy, signal and channel. */
  readonly #chosen = new Map<string, readonly number[]>();
  /** Copies that chose anything by any switch. */
  readonly #choosing = new Set<string>();
  readonly #open = new Map<string, readonly OpenGate[]>();
  readonly #openOfState = new Map<CopyUsage, Map<string, readonly OpenGate[]>>();

  constructor(program: Program) {
    const byGate = program.gates.map(() => [] as number[]);
    program.starts.forEach(({ gate }, i) => byGate[gate]!.push(i));
    this.#program = program;
    this.#asked = askedRanges(program);
    this.#fadeOf = numbersOfFades(program);
    this.#fading = fadingSignals(program);
    this.#byGate = byGate;
    this.#switches = new Set(
      switchKeys(program).filter(
        (key) =>
          !program.starts.some(({ event, keys }) => event !== 'change' && contains(keys, key)),
      ),
    );
  }

  learn(copy: Pick<CopyUsage, 'copy' | 'chosen'>): void {
    for (const { signal, channel, values } of copy.chosen) {
      // What no zone asks for chooses nothing: a switch may be watched on keys that only play.
      const isAsked = (value: number): boolean =>
        this.#asked[signal]!.some((range) => contains(range, value));
      if (values.some(isAsked)) this.#choosing.add(copy.copy);
      const key = choiceKey(copy, signal, channel);
      this.#chosen.set(key, [...new Set([...(this.#chosen.get(key) ?? []), ...values])]);
    }
  }

  /** True for a switch that plays nothing: what lies next to it on the keyboard was not played nearly. */
  onlySwitches(key: number): boolean {
    return this.#switches.has(key);
  }

  /** @param headroom widens keys, velocity and controllers under the same switches */
  starts(copy: CopyUsage, one: UsageClass, headroom: Headroom): readonly ReachedStart[] {
    const reached: ReachedStart[] = [];
    const { velocity } = one;
    const roomOf = (signal: number): number =>
      hasRoom(this.#program.signals[signal]!) ? headroom.controller : 0;
    const isChange = one.event === 'change';
    const keyRoom = isChange ? roomOf(one.signal) : headroom.keys;
    const velocityRoom = isChange ? 0 : headroom.velocity;
    const startsAt = this.#startsAt(one, keyRoom);
    const faded: (readonly DoubtSet[] | undefined)[] = [];
    for (const { gate, doubts } of this.#openGates(copy, one, headroom.controller, roomOf)) {
      for (const index of startsAt(gate)) {
        const start = this.#program.starts[index]!;
        const [lo, hi] = start.velocities;
        if (velocity + velocityRoom < lo || velocity - velocityRoom > hi) continue;
        const own = start.doubt | one.doubt;
        let all = own === plain ? doubts : product(doubts, [own]);
        if (start.fades.length > 0) {
          all = product(
            all,
            (faded[this.#fadeOf[index]!] ??= this.#fadeDoubts(start, copy, one, roomOf)),
          );
        }
        if (all.length > 0) reached.push({ index, start, doubts: all });
      }
    }
    return reached;
  }

  #fadeDoubts(
    { fades, releaseSeconds, hold }: Start,
    copy: CopyUsage,
    { life }: UsageClass,
    roomOf: (signal: number) => number,
  ): readonly DoubtSet[] {
    const moments = copy.lives[life] ?? [];
    return fadeDoubts(fades, releaseSeconds, hold, moments, this.#fading, roomOf);
  }

  /** What a class may start, gate by gate. */
  #startsAt(
    { event, key, hold, signal }: UsageClass,
    room: number,
  ): (gate: number) => readonly number[] {
    const at = `${event} ${String(key)} ${String(room)} ${String(hold)} ${String(signal)}`;
    let found = this.#byKey.get(at);
    if (found === undefined) this.#byKey.set(at, (found = []));
    const byGate = found;
    return (gate) =>
      (byGate[gate] ??= this.#byGate[gate]!.filter((index) => {
        const { event: own, keys, hold: by, change } = this.#program.starts[index]!;
        if (own !== event || (change !== undefined && change !== signal)) return false;
        if (hold !== anyHold && by !== hold) return false;
        return keys[0] <= key + room && keys[1] >= key - room;
      }));
  }

  #openGates(
    copy: CopyUsage,
    { state, channel }: UsageClass,
    room: number,
    roomOf: (signal: number) => number,
  ): readonly OpenGate[] {
    let ofCopy = this.#openOfState.get(copy);
    if (ofCopy === undefined) this.#openOfState.set(copy, (ofCopy = new Map<string, OpenGate[]>()));
    const at = `${String(state)} ${String(channel)} ${String(room)}`;
    let found = ofCopy.get(at);
    if (found === undefined) {
      const signals = copy.states[state]!.map((index, signal) =>
        known(
          copy.alternatives[index]!,
          this.#chosenBy(copy, signal, channel),
          this.#choosing.has(copy.copy),
        ),
      );
      found = this.#openFor(signals, room, roomOf);
      ofCopy.set(at, found);
    }
    return found;
  }

  #chosenBy(copy: CopyUsage, signal: number, channel: number): readonly number[] {
    const own = this.#chosen.get(choiceKey(copy, signal, channel));
    return own ?? this.#chosen.get(choiceKey(copy, signal, -1)) ?? [];
  }

  #openFor(
    signals: readonly (readonly KnownAlternative[])[],
    room: number,
    roomOf: (signal: number) => number,
  ): readonly OpenGate[] {
    const text = `${String(room)} ${JSON.stringify(signals)}`;
    let found = this.#open.get(text);
    if (found === undefined) {
      found = this.#program.gates.flatMap((gate, i) => {
        const doubts = gateDoubts(gate, signals, roomOf);
        return doubts.length === 0 ? [] : [{ gate: i, doubts }];
      });
      this.#open.set(text, found);
    }
    return found;
  }
}

/** Per start a number; alike for those whose fades, release and hold are the same. */
const numbersOfFades = ({ starts }: Program): readonly number[] => {
  const numbers = new Map<string, number>();
  return starts.map(({ fades, releaseSeconds, hold }) => {
    if (fades.length === 0) return -1;
    const ranges = fades.map(({ signal, lo, hi }) => [signal, lo, hi].join()).join(' ');
    const text = `${ranges} ${String(releaseSeconds)} ${String(hold)}`;
    const number = numbers.get(text) ?? numbers.size;
    numbers.set(text, number);
    return number;
  });
};

const choiceKey = ({ copy }: Pick<CopyUsage, 'copy'>, signal: number, channel: number): string =>
  `${copy}\n${String(signal)}\n${String(channel)}`;
