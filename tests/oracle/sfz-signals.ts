/**
 * What a signal may be at a moment of a cue: the plain value, and others under doubts. The cue is
 * gone through from its start for every question.
 *
 * Controller 121 has three readings, and a signal has a history of its own in each: RP-015 (plain),
 * ignored, and everything back to its first value (both `engine`).
 */
import { doubtBits, plain, type Alternative } from './doubts.ts';
import { bendOf, isController, isNoteOn, type SfzEvent, type SfzReel } from './sfz-data.ts';
import type { OracleInstrument } from './sfz-regions.ts';

/** No value: no test accepts it. */
export const none = Number.NaN;

/** Where a question is asked. */
export interface Moment {
  readonly events: readonly SfzEvent[];
  /** Of the event; the number of events: after the last one, on a later tick. */
  readonly index: number;
  /** The message that starts a region by its own value: its signal is that value and no other. */
  readonly fixed?: { readonly name: string; readonly value: number };
}

export const resetReadings = ['rp-015', 'ignored', 'all'] as const;
/** "All" comes back to the rounded first value, "other step" to the one beside it. */
export type ResetReading = (typeof resetReadings)[number] | 'other step';

export interface SignalValue extends Alternative<number> {
  readonly reading: ResetReading;
  /** The event that set it; null: it was so from the start. */
  readonly source: number | null;
}

export interface ValueSet {
  readonly index: number;
  readonly tick: number;
  readonly value: number;
}

export interface Signal {
  /** Two signals of one name are one signal. */
  readonly name: string;
  readonly at: (moment: Moment) => readonly SignalValue[];
}

/** A signal that messages set. */
export interface MessageSignal extends Signal {
  readonly initial: readonly Alternative<number>[];
  readonly sets: (events: readonly SfzEvent[], reading: ResetReading) => ValueSet[];
}

export function tickOf({ events, index }: Moment): number {
  return events[index]?.tick ?? Infinity;
}

export function messageSignal(
  name: string,
  initial: readonly Alternative<number>[],
  /** What an event sets it to; null: nothing. */
  meaning: (event: SfzEvent, reading: ResetReading) => number | null,
  /** False: a note is not its own predecessor. */
  seesItsOwn = true,
  ofReset: readonly ResetReading[] = resetReadings,
): MessageSignal {
  const sets = (events: readonly SfzEvent[], reading: ResetReading) =>
    events.flatMap((event, index): ValueSet[] => {
      const value = meaning(event, reading);
      return value === null ? [] : [{ index, tick: event.tick, value }];
    });
  const at = (moment: Moment) => {
    // Without the message all readings are one.
    const isReset = moment.events.some((event) => isController(event, 121));
    const readings: readonly ResetReading[] = isReset ? ofReset : ['rp-015'];
    return readings.flatMap((reading): SignalValue[] => {
      const doubts = reading === 'rp-015' ? plain : doubtBits.engine;
      const all = sets(moment.events, reading);
      const seen = seesItsOwn ? all : all.filter(({ index }) => index !== moment.index);
      const values =
        moment.fixed?.name === name
          ? [{ value: moment.fixed.value, doubts: plain, source: moment.index }]
          : valuesAt(seen, initial, moment);
      return values.map((value) => ({ ...value, reading, doubts: value.doubts | doubts }));
    });
  };
  return { name, initial, sets, at };
}

export type Left = Alternative<number> & { readonly source: number | null };

function valuesAt(
  sets: readonly ValueSet[],
  initial: readonly Alternative<number>[],
  moment: Moment,
): Left[] {
  const tick = tickOf(moment);
  const before = leftBefore(sets, initial, tick);
  const onTick = sets.filter((set) => set.tick === tick);
  const last = onTick.findLast(({ index }) => index <= moment.index);
  return [
    ...(last === undefined ? before : [asLeft(last, plain)]),
    ...before.map((value) => ({ ...value, doubts: value.doubts | doubtBits.order })),
    ...onTick.map((set) => asLeft(set, doubtBits.order)),
  ];
}

/** What a tick finds: the last tick that set it decides, its last message plainly. */
export function leftBefore(
  sets: readonly ValueSet[],
  initial: readonly Alternative<number>[],
  tick: number,
): Left[] {
  const earlier = sets.filter((set) => set.tick < tick);
  const last = earlier.at(-1);
  if (last === undefined) return initial.map((value) => ({ ...value, source: null }));
  return earlier
    .filter((set) => set.tick === last.tick)
    .map((set) => asLeft(set, set === last ? plain : doubtBits.order));
}

function asLeft({ value, index }: ValueSet, doubts: number): Left {
  return { value, doubts, source: index };
}

/** What controller 121 does to other controllers by RP-015. */
const afterReset: Readonly<Record<number, number>> = { 1: 0, 11: 127, 64: 0, 65: 0, 66: 0, 67: 0 };
const atPowerOn: Readonly<Record<number, number>> = { 7: 100, 10: 64, 11: 127 };

/** The value that the instrument gives a controller, else the one at power-on; and an engine's. */
export function firstValues(
  { firstValues }: OracleInstrument,
  number: number,
): [plainly: Alternative<number>, ...Alternative<number>[]] {
  const given = firstValues.get(number) ?? { value: atPowerOn[number] ?? 0 };
  const plainly = { value: given.value, doubts: plain };
  if (given.otherStep === undefined) return [plainly];
  return [plainly, { value: given.otherStep, doubts: doubtBits.engine }];
}

export function controllerSignal(instrument: OracleInstrument, number: number): MessageSignal {
  const [first, other] = firstValues(instrument, number);
  const initial = [
    first,
    ...(other === undefined ? [] : [other]),
    { value: 0, doubts: doubtBits.startState },
    { value: atPowerOn[number] ?? 0, doubts: doubtBits.startState },
  ];
  const meaning = (event: SfzEvent, reading: ResetReading) => {
    if (isController(event, number)) return event.data2;
    if (!isController(event, 121) || reading === 'ignored') return null;
    if (reading === 'rp-015') return afterReset[number] ?? null;
    return reading === 'all' || other === undefined ? first.value : other.value;
  };
  const ofReset = other === undefined ? resetReadings : ([...resetReadings, 'other step'] as const);
  return messageSignal(`controller ${number}`, initial, meaning, true, ofReset);
}

const fromZero = [{ value: 0, doubts: plain }];

/** A signal that both readings of controller 121 that do anything put back to 0. */
function zeroedSignal(name: string, value: (event: SfzEvent) => number | null): MessageSignal {
  return messageSignal(name, fromZero, (event, reading) =>
    isController(event, 121) && reading !== 'ignored' ? 0 : value(event),
  );
}

export const bendSignal = zeroedSignal('bend', (event) =>
  event.kind === 'bend' ? bendOf(event) : null,
);

export const pressureSignal = zeroedSignal('pressure', (event) =>
  event.kind === 'pressure' ? event.data1 : null,
);

/** Of one key on any channel; null: of any key. */
export function polyPressureSignal(key: number | null): MessageSignal {
  return zeroedSignal(`poly pressure ${key ?? 'any'}`, (event) =>
    event.kind === 'poly-pressure' && (key === null || event.data1 === key) ? event.data2 : null,
  );
}

const fromNone = [{ value: none, doubts: plain }];

export const previousKey = messageSignal(
  'previous key',
  fromNone,
  (event) => (isNoteOn(event) ? event.data1 : null),
  false,
);

/** What was struck before the cue may have had any velocity. */
const fromAnyVelocity = [
  ...fromNone,
  ...Array.from({ length: 127 }, (_, i) => ({ value: i + 1, doubts: doubtBits.startState })),
];

export const previousVelocity = messageSignal(
  'previous velocity',
  fromAnyVelocity,
  (event) => (isNoteOn(event) ? event.data2 : null),
  false,
);

/**
 * A signal that chooses articulations: what the copy chooses anywhere may have been chosen before,
 * and a copy that never chooses at all may have been told by other means.
 */
export function choosingSignal(
  name: string,
  first: number,
  everything: readonly number[],
  reel: SfzReel,
  copyChooses: boolean,
  meaning: (event: SfzEvent) => number | null,
): MessageSignal {
  const chosen = reel.flatMap(({ events }) => events.flatMap((event) => meaning(event) ?? []));
  const initial = [
    { value: first, doubts: plain },
    ...[...new Set(chosen)].map((value) => ({ value, doubts: doubtBits.startState })),
    ...(copyChooses ? [] : everything.map((value) => ({ value, doubts: doubtBits.noSwitch }))),
  ];
  return messageSignal(name, initial, meaning);
}
