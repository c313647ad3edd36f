import type { Fade, Gate } from '../instruments/program.ts';
import { minimal, plain, product, type DoubtSet } from '../terms/doubt.ts';
import { contains, intersect, type Range } from '../terms/range.ts';
import type { Alternative } from './alternatives.ts';
import { anyHold, type Moment } from './zone-usage.ts';

/** A signal's alternatives with all their values known: `any` is every value there is. */
export interface KnownAlternative {
  readonly value: number | 'any';
  readonly doubt: DoubtSet;
}

/**
 * Puts values in the place of what only the whole reel tells.
 *
 * @param chosen what the copy chose for the signal in any cue
 * @param choosesAny it chose something in any cue, by whatever switch
 */
export const known = (
  list: readonly Alternative[],
  chosen: readonly number[],
  choosesAny: boolean,
): readonly KnownAlternative[] =>
  list.flatMap(({ value, doubt }): readonly KnownAlternative[] => {
    if (value === 'chosen') return chosen.map((one) => ({ value: one, doubt }));
    if (value === 'unchosen') return choosesAny ? [] : [{ value: 'any', doubt }];
    return [{ value, doubt }];
  });

/** No room around what was played. */
const noRoom = (): number => 0;

/**
 * D of a gate: the minimal doubt sets under which all its conditions hold; empty when they can't.
 * D(C) = min of test's doubts + value's doubts over tests that accept the value; signals vary freely.
 *
 * @param roomOf by how much the limits of a signal are widened for headroom
 */
export const gateDoubts = (
  gate: Gate,
  signals: readonly (readonly KnownAlternative[])[],
  roomOf: (signal: number) => number = noRoom,
): readonly DoubtSet[] => {
  const { alone, sharing } = partsOf(gate);
  if (sharing.length > 0) {
    const apart = gateDoubts(alone, signals, roomOf);
    if (apart.length === 0) return apart;
    return product(apart, minimal(jointDoubts(sharing, signals, roomOf)));
  }
  let doubts: readonly DoubtSet[] = [plain];
  for (const { signal, tests } of gate) {
    const holds: DoubtSet[] = [];
    for (const test of tests) {
      const asked = test.signal ?? signal;
      const room = roomOf(asked);
      for (const { value, doubt } of signals[asked]!) {
        if (value === 'any' || (value >= test.lo - room && value <= test.hi + room))
          holds.push(doubt | test.doubt);
      }
    }
    doubts = product(doubts, minimal(holds));
    if (doubts.length === 0) return doubts;
  }
  return doubts;
};

/** The conditions of a gate that ask for signals of their own, and those that share some. */
interface GateParts {
  readonly alone: Gate;
  readonly sharing: Gate;
}

const knownParts = new WeakMap<Gate, GateParts>();

/** Where several conditions ask for one signal, one value has to satisfy them all. */
const partsOf = (gate: Gate): GateParts => {
  let parts = knownParts.get(gate);
  if (parts === undefined) {
    const asked = gate.map(({ signal, tests }) => [
      ...new Set(tests.map((test) => test.signal ?? signal)),
    ]);
    const times = new Map<number, number>();
    for (const signal of asked.flat()) times.set(signal, (times.get(signal) ?? 0) + 1);
    const shares = asked.map((signals) => signals.some((signal) => times.get(signal)! > 1));
    parts = {
      alone: gate.filter((_, i) => !shares[i]!),
      sharing: gate.filter((_, i) => shares[i]!),
    };
    knownParts.set(gate, parts);
  }
  return parts;
};

/** {@link gateDoubts} where conditions share signals: every choice of one test from each of them. */
const jointDoubts = (
  gate: Gate,
  signals: readonly (readonly KnownAlternative[])[],
  roomOf: (signal: number) => number,
  ranges: ReadonlyMap<number, Range> = new Map(),
  doubt: DoubtSet = plain,
): readonly DoubtSet[] => {
  const [first, ...rest] = gate;
  if (first === undefined) return holding(signals, ranges).map((set) => set | doubt);
  return first.tests.flatMap((test) => {
    const asked = test.signal ?? first.signal;
    const room = roomOf(asked);
    const own: Range = [test.lo - room, test.hi + room];
    const other = ranges.get(asked);
    const both = other === undefined ? own : intersect(own, other);
    if (both === null) return [];
    return jointDoubts(
      rest,
      signals,
      roomOf,
      new Map([...ranges, [asked, both]]),
      doubt | test.doubt,
    );
  });
};

/** The doubt sets under which signals lie within ranges. */
const holding = (
  signals: readonly (readonly KnownAlternative[])[],
  ranges: ReadonlyMap<number, Range>,
): readonly DoubtSet[] =>
  [...ranges].reduce<readonly DoubtSet[]>(
    (doubts, [signal, range]) =>
      product(
        doubts,
        minimal(
          signals[signal]!.filter(({ value }) => value === 'any' || contains(range, value)).map(
            (one) => one.doubt,
          ),
        ),
      ),
    [plain],
  );

/**
 * D of a start's fades over a voice's life: all of them above zero at one instant.
 *
 * @param hold what keeps the voice of this start sounding
 * @param fading the program's fading signals, in the order of a moment's ranges
 */
export const fadeDoubts = (
  fades: readonly Fade[],
  releaseSeconds: number,
  hold: number,
  life: readonly Moment[],
  fading: readonly number[],
  roomOf: (signal: number) => number = noRoom,
): readonly DoubtSet[] =>
  minimal(
    life
      .filter(
        ({ ranges, after, hold: by }) =>
          after <= releaseSeconds &&
          (by === anyHold || by === hold) &&
          fades.every(({ signal, lo, hi }) => {
            const range = ranges[fading.indexOf(signal)]!;
            const room = roomOf(signal);
            return range[0] <= hi + room && range[1] >= lo - room;
          }),
      )
      .map(({ doubt }) => doubt),
  );
