/**
 * When notes end: with their key, or with the last pedal that holds them. A region has pedals of its
 * own, and every reading of pedals plays the cue once by itself.
 */
import { doubtBits, plain, type Alternative } from './doubts.ts';
import { isController, type SfzEvent } from './sfz-data.ts';
import { strikesOf, type Strike } from './sfz-strikes.ts';
import { integer, real, type OracleInstrument, type OracleRegion } from './sfz-regions.ts';
import { firstValues, resetReadings, type ResetReading } from './sfz-signals.ts';

const { engine, order, startState } = doubtBits;

/** When no key and no pedal holds a note any more; null: not before the cue ends. */
type Release = number | null;

export interface PlayedNote extends Strike {
  /** In file order plainly; under `order` where a pedal of its key's last tick comes sooner or later. */
  readonly releases: readonly Alternative<Release>[];
}

/** One reading of the pedals, and what became of every note of the cue in it. */
export interface PedalHistory {
  readonly doubts: number;
  readonly notes: readonly PlayedNote[];
}

interface Pedal {
  readonly controller: number;
  /** It is down from this value on; Infinity: the region has no such pedal. */
  readonly threshold: number;
}

/** Which pedals are down. */
interface PedalState {
  readonly sustain: boolean;
  readonly sostenuto: boolean;
}

const known = new WeakMap<OracleRegion, Map<readonly SfzEvent[], PedalHistory[]>>();

/** Every start of a region asks for them: they are made once for each cue. */
export function pedalHistories(
  instrument: OracleInstrument,
  region: OracleRegion,
  events: readonly SfzEvent[],
): PedalHistory[] {
  const ofRegion = known.get(region) ?? new Map<readonly SfzEvent[], PedalHistory[]>();
  known.set(region, ofRegion);
  const histories = ofRegion.get(events) ?? madeHistories(instrument, region, events);
  ofRegion.set(events, histories);
  return histories;
}

/**
 * All readings, the plain one first: the threshold as given, or 64; three readings of controller 121;
 * what a note-off ends; and what the pedals are at first.
 */
function madeHistories(
  instrument: OracleInstrument,
  region: OracleRegion,
  events: readonly SfzEvent[],
): PedalHistory[] {
  // Without the message all readings of it are one.
  const isReset = events.some((event) => isController(event, 121));
  const resets: readonly ResetReading[] = isReset ? resetReadings : ['rp-015'];
  return [null, 64].flatMap((threshold) => {
    const sustain = pedalOf(region, 'sustain', 64, threshold);
    const sostenuto = pedalOf(region, 'sostenuto', 66, threshold);
    return resets.flatMap((reset) =>
      strikesOf(events).flatMap((strikes) =>
        firstStates(instrument, sustain, sostenuto, events).map((first) => {
          const states = statesAfter(events, sustain, sostenuto, reset, first.value);
          const moving = [sustain.controller, sostenuto.controller, 121];
          const isPlain = threshold === null && reset === 'rp-015';
          return {
            doubts: (isPlain ? plain : engine) | strikes.doubts | first.doubts,
            notes: strikes.value.map((strike) => played(strike, events, states, moving)),
          };
        }),
      ),
    );
  });
}

function pedalOf(
  region: OracleRegion,
  name: 'sustain' | 'sostenuto',
  usual: number,
  otherThreshold: number | null,
): Pedal {
  const off = ['off', '0'].includes(region.opcodes.get(`${name}_sw`)?.toLowerCase() ?? 'on');
  const controller = integer(region, `${name}_cc`) ?? usual;
  const threshold = off ? Infinity : (otherThreshold ?? real(region, `${name}_lo`) ?? 0.5);
  return { controller, threshold };
}

/**
 * By the first values of their controllers; and the sustain pedal may be down from before, where the cue
 * uses it at all. A sostenuto pedal from before holds no note of the cue.
 */
function firstStates(
  instrument: OracleInstrument,
  sustain: Pedal,
  sostenuto: Pedal,
  events: readonly SfzEvent[],
): Alternative<PedalState>[] {
  const byValue = ({ controller, threshold }: Pedal) =>
    firstValues(instrument, controller).map(({ value, doubts }) => ({
      value: value >= threshold,
      doubts,
    }));
  const isUsed = events.some((event) => isController(event, sustain.controller));
  const mayBeDown = isUsed && sustain.threshold <= 127;
  const fromBefore = mayBeDown ? [{ value: true, doubts: startState }] : [];
  return [...byValue(sustain), ...fromBefore].flatMap((a) =>
    byValue(sostenuto).map((b) => ({
      value: { sustain: a.value, sostenuto: b.value },
      doubts: a.doubts | b.doubts,
    })),
  );
}

/** Before the first event, and after each. */
function statesAfter(
  events: readonly SfzEvent[],
  sustain: Pedal,
  sostenuto: Pedal,
  reset: ResetReading,
  first: PedalState,
): PedalState[] {
  const after = ({ controller, threshold }: Pedal, event: SfzEvent, was: boolean): boolean => {
    if (isController(event, 121)) {
      // By RP-015 the pedals themselves go up; what a region uses as a pedal instead is left alone.
      const lifts = reset === 'all' || (reset === 'rp-015' && [64, 66].includes(controller));
      return was && !lifts;
    }
    return isController(event, controller) ? event.data2 >= threshold : was;
  };
  let state = first;
  return [
    first,
    ...events.map((event) => {
      state = {
        sustain: after(sustain, event, state.sustain),
        sostenuto: after(sostenuto, event, state.sostenuto),
      };
      return state;
    }),
  ];
}

function played(
  strike: Strike,
  events: readonly SfzEvent[],
  states: readonly PedalState[],
  moving: readonly number[],
): PlayedNote {
  const { keyUp } = strike;
  if (keyUp === null) return { ...strike, releases: [{ value: null, doubts: plain }] };
  const free = (place: number) => freeFrom(strike.on, place, events.length, states);
  const fromFile = free(keyUp - 1);
  const inFileOrder = fromFile === keyUp - 1 ? keyUp : fromFile;

  const tick = events[keyUp]!.tick;
  const messages = events.flatMap((event, index) =>
    event.tick === tick && moving.some((number) => isController(event, number)) ? [index] : [],
  );
  // The key may go up before the first of them, and after any.
  const places = messages.flatMap((index, i) => (i === 0 ? [index - 1, index] : [index]));
  const swapped = places.map((place) => {
    const release = free(place);
    // Wherever the note ends on the tick of its key, gates see all of that tick under `order`.
    return release !== null && (events[release]?.tick ?? tick) <= tick ? keyUp : release;
  });
  return {
    ...strike,
    releases: [
      { value: inFileOrder, doubts: plain },
      ...[...new Set(swapped)]
        .filter((release) => release !== inFileOrder)
        .map((value) => ({ value, doubts: order })),
    ],
  };
}

/**
 * The event after which nothing holds a note any more whose key goes up right after an event (-1:
 * before all); null: there is none.
 */
function freeFrom(
  on: number,
  keyUpAfter: number,
  count: number,
  states: readonly PedalState[],
): Release {
  const after = (index: number) => states[index + 1]!;
  let caught = false;
  for (let index = Math.min(on, keyUpAfter); index < count; index++) {
    const { sustain, sostenuto } = after(index);
    const isHeld = index > on && index <= keyUpAfter;
    if (isHeld && sostenuto && !after(index - 1).sostenuto) caught = true;
    if (!sostenuto) caught = false;
    if (index >= keyUpAfter && !sustain && !caught) return index;
  }
  return null;
}

/** What it takes for a note still to sound when an event comes. */
export function soundsAt(note: PlayedNote, index: number): number[] {
  return note.releases
    .filter(({ value }) => note.on < index && (value === null || value > index))
    .map(({ doubts }) => doubts);
}
