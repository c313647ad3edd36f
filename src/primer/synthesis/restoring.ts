import { programFor } from '../../playback/play-cue.ts';
import { controllers, powerOnValue } from '../../terms/controllers.ts';
import { contains } from '../../terms/range.ts';
import type { Lane, LaneGroup, LaneMessage, PrimingStep } from '../lanes.ts';
import { firstSettings, laneKey, settingKey, type LaneFirsts } from './first-settings.ts';
import { hearing } from './performer.ts';
import { wireKey } from './wire.ts';

/** From the end of the notes until things are put back, in seconds. */
const pause = 0.5;

/** Between bank, program, switches, in seconds; and how long a switch is pressed. */
const apart = 0.06;
const press = 0.12;

const strength = 64;

/** Hold 2, the last of the controllers that are pedals (MIDI 1.0, table III). */
const lastPedal = 69;

/** Channel mode messages and their neighbours are no state to go back to. */
const firstMode = 120;

const none: LaneFirsts = { settings: new Map(), struck: [] };

/**
 * Messages that put things back: what the base sets first, else what the instrument powers on with.
 * Pedals go up whatever the base does. No note is left to be ended: each has its note-off.
 */
export const restoring = (
  group: LaneGroup,
  steps: readonly { readonly step: PrimingStep }[],
): readonly LaneMessage[] => {
  const touched = new Map<string, { lane: Lane; messages: Map<string, LaneMessage> }>();
  for (const message of steps.flatMap(({ step }) => step.messages)) {
    const { lane, status, data1 } = message;
    const kind = status >> 4;
    const number = kind === 0xd || kind === 0xe || kind === 0xc ? 0 : data1;
    let own = touched.get(laneKey(lane));
    if (own === undefined) touched.set(laneKey(lane), (own = { lane, messages: new Map() }));
    own.messages.set(settingKey(kind, number), message);
  }
  const firsts = group.base === undefined ? new Map<string, LaneFirsts>() : known(group.base);
  return [...touched.values()].flatMap(({ lane, messages }) =>
    laneBack(group, lane, [...messages.values()], firsts.get(laneKey(lane)) ?? none),
  );
};

const memo = new WeakMap<NonNullable<LaneGroup['base']>, ReturnType<typeof firstSettings>>();

const known = (score: NonNullable<LaneGroup['base']>): ReturnType<typeof firstSettings> => {
  let found = memo.get(score);
  if (found === undefined) memo.set(score, (found = firstSettings(score)));
  return found;
};

const laneBack = (
  group: LaneGroup,
  lane: Lane,
  moved: readonly LaneMessage[],
  { settings, struck }: LaneFirsts,
): readonly LaneMessage[] => {
  const made: LaneMessage[] = [];
  let seconds = pause;
  const send = (kind: number, data1: number, data2: number): void => {
    made.push({ lane, status: (kind << 4) | lane.channel, data1, data2, seconds });
  };
  let program: number | null = settings.get(settingKey(0xc, 0))?.[0] ?? null;
  for (const { status, data1 } of moved) {
    const kind = status >> 4;
    if (kind === 0xa) send(kind, data1, 0);
    else if (kind === 0xb && !isBank(data1)) {
      const value = usualValue(group, lane, data1, settings.get(settingKey(kind, data1))?.[1]);
      if (value !== null) send(kind, data1, value);
    } else if (kind === 0xc) program ??= 0;
    else if (kind === 0xd) send(kind, settings.get(settingKey(kind, 0))?.[0] ?? 0, 0);
    else if (kind === 0xe) send(kind, ...(settings.get(settingKey(kind, 0)) ?? ([0, 64] as const)));
  }
  const isMoved = moved.some(({ status }) => status >> 4 === 0xc);
  if (program !== null && isMoved) {
    const banks = [controllers.bankSelectMsb, controllers.bankSelectLsb];
    for (const number of lane.channel === 9 ? [] : banks) {
      seconds += apart;
      send(0xb, number, settings.get(settingKey(0xb, number))?.[1] ?? 0);
    }
    seconds += apart;
    send(0xc, program, 0);
  }
  const pressed = moved.flatMap(({ status, data1 }) => (status >> 4 === 0x9 ? [data1] : []));
  for (const key of switchesBack(group, lane, pressed, struck)) {
    seconds += apart;
    send(0x9, key, strength);
    seconds += press;
    send(0x8, key, strength);
  }
  return made;
};

const isBank = (number: number): boolean =>
  number === controllers.bankSelectMsb || number === controllers.bankSelectLsb;

/** Keys to write: of each switch that steps have pressed, the first that the base presses, or its default. */
const switchesBack = (
  { copies }: LaneGroup,
  lane: Lane,
  pressed: readonly number[],
  struck: readonly number[],
): readonly number[] => {
  const found = new Set<number>();
  for (const { instrument, copy } of copies) {
    const source = hearing(copy.sources, lane);
    if (source === null) continue;
    const { transpose } = source.transform;
    for (const signal of programFor(instrument, copy.articulation).signals) {
      if (signal.kind !== 'switch') continue;
      const isOne = (key: number): boolean =>
        signal.keys.some((range) => contains(range, key + transpose));
      if (!pressed.some(isOne)) continue;
      const initial = signal.initial === null ? null : wireKey(source.transform, signal.initial);
      const key = struck.find(isOne) ?? initial;
      if (key !== null) found.add(key);
    }
  }
  return [...found];
};

/** What a controller goes back to; null for those that choose and have no value to go back to. */
const usualValue = (
  { copies }: LaneGroup,
  lane: Lane,
  written: number,
  first: number | undefined,
): number | null => {
  for (const { instrument, copy } of copies) {
    const source = hearing(copy.sources, lane);
    if (source === null) continue;
    const number = source.transform.controllers.get(written) ?? written;
    if (number >= controllers.sustain && number <= lastPedal) return 0;
    const { signals } = programFor(instrument, copy.articulation);
    for (const signal of signals) {
      if (signal.kind !== 'controller' || signal.number !== number) continue;
      if (first !== undefined) return first;
      return signal.selects === true ? signal.initial : (signal.initial ?? powerOnValue(number));
    }
  }
  if (written >= firstMode) return null;
  return first ?? powerOnValue(written);
};
