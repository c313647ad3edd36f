import type { Program, Signal, Start } from '../../instruments/program.ts';
import type { RoutedCopy, RoutedSource } from '../../template/routed.ts';
import { contains, type Range } from '../../terms/range.ts';
import type { Lane } from '../lanes.ts';
import { limitsOf, middles, type Limits } from './bands-of-choice.ts';
import { demandsOf, knobOf, type Demand, type Knob } from './demands.ts';
import { primerTempo, type Performer } from './performer.ts';
import type { Before, Situation } from './situation.ts';
import { wireController, wireKey, wireVelocity } from './wire.ts';

const sevenBits: Range = [0, 127];

/** Stands for no value: what nothing asks for may be left alone. */
const asItIs = -1;

/** Values to try, of which the first of each is tried first. */
interface Choices {
  readonly lanes: readonly (readonly [RoutedSource, Lane])[];
  readonly keys: readonly number[];
  readonly velocities: readonly number[];
  readonly knobs: ReadonlyMap<Knob, readonly number[]>;
  readonly before: readonly (readonly Before[])[];
}

/** More lanes of one copy than this are not tried for one start. */
const mostLanes = 4;

/**
 * Ways to make a start happen, the simplest first: values from the middle of what it asks for, then
 * one thing changed at a time, then some of them together.
 */
export function* situationsOf(performer: Performer, start: Start): Generator<Situation> {
  const { program } = performer.plain;
  for (const demand of demandsOf(program, start)) {
    for (const [source, lane] of lanesFor(performer.copy.copy, program, demand)) {
      const choices = choicesFor(performer, start, demand, source, lane);
      if (choices !== null) yield* combined(program, start, choices);
    }
  }
}

const lanesFor = (
  { sources }: RoutedCopy,
  { scope, signals }: Program,
  demand: Demand,
): Choices['lanes'] => {
  const channels = demand.get('channel');
  const patches = demand.get('patch');
  const all = sources.flatMap((source) =>
    Array.from({ length: 16 }, (_, channel) => channel)
      .filter((channel) => (source.channels & (1 << channel)) !== 0)
      .filter((channel) => channels?.some((range) => contains(range, channel + 1)) ?? true)
      .filter((channel) => patches === undefined || patchesOn(channel, patches, 1).length > 0)
      .map((channel) => {
        const { track, port } = source;
        return [source, { track, port, channel }] as const;
      }),
  );
  const tells = scope === 'channel' || signals.some(({ kind }) => kind === 'channel');
  return all.slice(0, tells ? mostLanes : Math.min(2, all.length));
};

/** Patches in `ranges` that bank select and program change reach on a channel; channel 9 plays drums. */
const patchesOn = (channel: number, ranges: readonly Range[], most: number): readonly number[] => {
  const found: number[] = [];
  for (const [lo, hi] of ranges) {
    for (let patch = lo; patch <= hi && found.length < most;) {
      const bank = patch % 32768;
      const fits = channel === 9 ? bank === 128 : bank < 128;
      if (fits) found.push(patch++);
      // On to where a bank of this channel can come next.
      else if (channel === 9 && bank < 128) patch += 128 - bank;
      else patch += 32768 - bank;
    }
  }
  return found;
};

const choicesFor = (
  performer: Performer,
  start: Start,
  demand: Demand,
  source: RoutedSource,
  lane: Lane,
): Choices | null => {
  const { program, asked } = performer.plain;
  const limits = limitsOf(program);
  const { transform } = source;
  const knobs = new Map<Knob, readonly number[]>();
  const isChange = start.event === 'change';
  const keys = isChange
    ? changeValues(program, start, demand, limits)
    : middles([start.keys], limits.keys, sevenBits).filter(
        (key) => wireKey(transform, key) !== null,
      );
  const velocities = middles([start.velocities], limits.velocities, [
    isChange ? 0 : 1,
    127,
  ]).flatMap((velocity) => nearVelocity(velocity, start.velocities, source));
  for (const index of asked) {
    const signal = program.signals[index]!;
    const knob = knobOf(signal, index);
    if (knobs.has(knob)) continue;
    const wanted = demand.get(knob);
    const values = valuesFor(performer, signal, index, wanted, limits, source, lane);
    if (values === null) return null;
    if (values.length > 0) knobs.set(knob, values);
  }
  for (const number of performer.plain.pedals.keys()) {
    const knob: Knob = `controller ${number}`;
    if (!knobs.has(knob) && wireController(transform, number) !== null) knobs.set(knob, [0]);
  }
  if (isChange) knobs.delete(knobOf(program.signals[start.change!]!, start.change!));
  if (keys.length === 0 || velocities.length === 0) return null;
  const before = beforeOf(performer, demand, limits, source, keys[0]!);
  return before === null ? null : { lanes: [[source, lane]], keys, velocities, knobs, before };
};

const changeValues = (
  { signals }: Program,
  start: Start,
  demand: Demand,
  limits: Limits,
): readonly number[] => {
  const knob = knobOf(signals[start.change!]!, start.change!);
  const whole: Range = knob === 'bend' ? [-8192, 8191] : sevenBits;
  const asked = demand.get(knob) ?? [whole];
  return middles(asked, limits.knobs.get(knob) ?? [], whole).filter((value) =>
    contains(start.keys, value),
  );
};

/** The nearest velocity that some written one arrives as. */
const nearVelocity = (
  velocity: number,
  [lo, hi]: Range,
  { transform }: RoutedSource,
): readonly number[] => {
  for (let off = 0; off <= 127; off++) {
    for (const near of [velocity - off, velocity + off]) {
      if (near < Math.max(lo, 0) || near > Math.min(hi, 127)) continue;
      if (near === 0 || wireVelocity(transform, near) !== null) return [near];
    }
  }
  return [];
};

/** Values to set something to; none: it is left alone; null: what is asked for can't be set. */
const valuesFor = (
  performer: Performer,
  signal: Signal,
  index: number,
  wanted: readonly Range[] | undefined,
  limits: Limits,
  source: RoutedSource,
  lane: Lane,
): readonly number[] | null => {
  const knob = knobOf(signal, index);
  const edges = limits.knobs.get(knob) ?? [];
  const all = (whole: Range): readonly number[] => middles(wanted ?? [whole], edges, whole);
  const now = performer.valueOf(index, lane.channel);
  const orNone = (values: readonly number[]): readonly number[] | null =>
    values.length === 0 && wanted !== undefined ? null : values;
  switch (signal.kind) {
    case 'controller': {
      if (wireController(source.transform, signal.number) === null) {
        return wanted?.some((range) => contains(range, now.value)) === false ? null : [];
      }
      if (wanted === undefined && performer.plain.changes.has(index)) return [];
      const usual = performer.plain.pedals.has(signal.number) ? 0 : now.value;
      const values = all(sevenBits);
      return orNone(wanted === undefined ? [...new Set([usual, ...values])] : values);
    }
    case 'bend':
      if (wanted === undefined && performer.plain.changes.has(index)) return [];
      return orNone(withFirst(0, wanted, all([-8192, 8191])));
    case 'pressure':
    case 'poly-pressure':
      if (wanted === undefined && performer.plain.changes.has(index)) return [];
      return orNone(withFirst(0, wanted, all(sevenBits)));
    case 'program':
      return orNone(all(sevenBits));
    case 'patch':
      return orNone(wanted === undefined ? [] : patchesOn(lane.channel, wanted, 4));
    case 'switch': {
      const keys = signal.keys.flatMap((range) => all(range).filter((key) => contains(range, key)));
      const reach = keys.filter((key) => wireKey(source.transform, key) !== null);
      const current = reach.filter((key) => now.isTold && key === now.value);
      const values = [...new Set([...current, ...reach])].slice(0, 8);
      return orNone(wanted === undefined ? [...values, asItIs] : values);
    }
    case 'tempo':
      return wanted?.some((range) => contains(range, primerTempo)) === false ? null : [];
    case 'channel':
    case 'held':
    case 'previous-key':
    case 'previous-velocity':
      return [];
  }
};

const withFirst = (
  first: number,
  wanted: readonly Range[] | undefined,
  values: readonly number[],
): readonly number[] =>
  wanted?.some((range) => contains(range, first)) === false
    ? values
    : [...new Set([first, ...values])];

/** Most keys that are held ahead of a note. */
const mostHeld = 6;

/** Notes ahead of the note: what it asks of keys held and of the note before; null: impossible. */
const beforeOf = (
  performer: Performer,
  demand: Demand,
  limits: Limits,
  { transform }: RoutedSource,
  key: number,
): Choices['before'] | null => {
  const { signals } = performer.plain.program;
  const previous = demand.get('previous-key');
  const strength = demand.get('previous-velocity');
  let count = 0;
  let most = mostHeld;
  let among: readonly Range[] = [sevenBits];
  let isAsked = false;
  for (const [index, signal] of signals.entries()) {
    if (signal.kind !== 'held') continue;
    const wanted = demand.get(`held ${index}`);
    if (wanted === undefined) continue;
    isAsked = true;
    const counts = signal.own && signal.keys.some((range) => contains(range, key)) ? 1 : 0;
    const lo = Math.max(0, Math.min(...wanted.map(([from]) => from)) - counts);
    const hi = Math.max(...wanted.map(([, to]) => to)) - counts;
    if (hi < 0 || lo > mostHeld) return null;
    if (lo > count) among = signal.keys;
    count = Math.max(count, lo);
    most = Math.min(most, hi);
  }
  if (most < count) return null;
  const isReachable = (one: number): boolean => one !== key && wireKey(transform, one) !== null;
  const keysIn = (ranges: readonly Range[]): readonly number[] =>
    ranges
      .flatMap(([lo, hi]) =>
        Array.from({ length: Math.min(hi, 127) - Math.max(lo, 0) + 1 }, (_, i) => lo + i),
      )
      .filter(isReachable)
      .sort((a, b) => Math.abs(a - key) - Math.abs(b - key));
  const velocities = middles(strength ?? [[1, 127]], limits.velocities, [1, 127]).filter(
    (one) => wireVelocity(transform, one) !== null,
  );
  if (velocities.length === 0) return null;
  const strike = (one: number, velocity: number, isHeld: boolean): Before => ({
    key: one,
    velocity,
    isHeld,
  });
  if (count > 0) {
    const keys = keysIn(among).filter(
      (one) => previous?.some((range) => contains(range, one)) ?? true,
    );
    if (keys.length < count) return null;
    return velocities.flatMap((velocity) =>
      Array.from({ length: Math.min(keys.length - count + 1, 24) }, (_, from) =>
        keys.slice(from, from + count).map((one) => strike(one, velocity, true)),
      ),
    );
  }
  if (previous === undefined && strength === undefined) return [[]];
  const asked = previous ?? [sevenBits];
  const own = asked.some((range) => contains(range, key)) ? [key] : [];
  const keys = [...keysIn(asked), ...own].slice(0, 24);
  const notes = velocities.flatMap((velocity) =>
    keys.flatMap((one) => [
      [strike(one, velocity, false)],
      ...(isAsked || one === key ? [] : [[strike(one, velocity, true)]]),
    ]),
  );
  return notes.length === 0 ? null : notes;
};

/** More ways than this to combine values are not tried. */
const mostCombinations = 240;

function* combined(program: Program, start: Start, choices: Choices): Generator<Situation> {
  const names = [...choices.knobs.keys()];
  const sizes = [
    choices.keys.length,
    choices.velocities.length,
    choices.before.length,
    ...names.map((name) => choices.knobs.get(name)!.length),
  ];
  const change =
    start.change === undefined ? null : knobOf(program.signals[start.change]!, start.change);
  const [source, lane] = choices.lanes[0]!;
  const ends = start.event === 'release' || start.event === 'note-off';
  const make = (at: readonly number[]): readonly Situation[] => {
    const knobs = new Map(
      names
        .map((name, i) => [name, choices.knobs.get(name)![at[i + 3]!]!] as const)
        .filter(([knob, value]) => value !== asItIs || !knob.startsWith('switch')),
    );
    const one: Situation = {
      source,
      lane,
      event: start.event,
      key: choices.keys[at[0]!]!,
      velocity: choices.velocities[at[1]!]!,
      change,
      knobs,
      atEnd: new Map(),
      before: choices.before[at[2]!]!,
      waits: false,
    };
    return ends ? [one, ...endingSo(one, choices.knobs)] : [one];
  };
  const seen = new Set<string>();
  const fresh = (at: readonly number[]): readonly Situation[] => {
    const text = at.join();
    if (seen.has(text)) return [];
    seen.add(text);
    return make(at);
  };
  const first = sizes.map(() => 0);
  yield* fresh(first);
  for (const [place, size] of sizes.entries()) {
    for (let value = 1; value < size; value++) {
      yield* fresh(first.map((zero, i) => (i === place ? value : zero)));
    }
  }
  const all = sizes.reduce((product, size) => product * size, 1);
  const step = Math.max(1, Math.floor(all / mostCombinations));
  for (let number = 0; number < all; number += step) {
    let left = number;
    yield* fresh(
      sizes.map((size) => {
        const value = left % size;
        left = Math.floor(left / size);
        return value;
      }),
    );
  }
}

/** The same with the controllers moved while the key is down: what they ask for counts at the end. */
const endingSo = (one: Situation, knobs: Choices['knobs']): readonly Situation[] => {
  const moved = [...one.knobs].filter(
    ([knob]) => knob.startsWith('controller') || knob === 'bend' || knob === 'pressure',
  );
  return moved.flatMap(([knob, value]) =>
    (knobs.get(knob) ?? []).length === 0
      ? []
      : [0, 127]
          .filter((before) => before !== value)
          .map((before) => ({
            ...one,
            knobs: new Map([...one.knobs, [knob, before] as const]),
            atEnd: new Map([[knob, value] as const]),
          })),
  );
};
