import type { Program } from '../../instruments/program.ts';
import type { Score } from '../../midi/score.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { RoutedSource } from '../../template/routed.ts';
import { controllers, powerOnValue } from '../../terms/controllers.ts';
import { contains } from '../../terms/range.ts';
import { isRegistered } from '../excerpts/chase.ts';
import type { CopyToPrime, Lane, LaneMessage } from '../lanes.ts';
import { firstSettings, laneKey, settingKey, type LaneFirsts } from './first-settings.ts';
import { firstsFor } from './firsts-for.ts';
import { hearing } from './performer.ts';
import { settleOf } from './settle.ts';
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

/** Copies that are put back. */
export interface ToRestore {
  readonly copies: readonly Pick<CopyToPrime, 'instrument' | 'copy' | 'slack'>[];
  /** What it sets first is gone back to. */
  readonly base?: Score;
}

/** A copy that hears a lane, and what the base sets first for it there. */
interface Hearer {
  /** Index of the copy. */
  readonly copy: number;
  readonly program: Program;
  readonly source: RoutedSource;
  readonly firsts: Pick<LaneFirsts, 'settings' | 'struck'>;
}

/**
 * Messages that put things back: what the base sets first, else what the instrument powers on with.
 * Pedals go up whatever the base does. No note is left to be ended: each has its note-off.
 *
 * @param messages what was moved
 */
export const restoring = (
  { copies, base }: ToRestore,
  messages: readonly LaneMessage[],
): readonly LaneMessage[] => {
  const touched = new Map<string, { lane: Lane; messages: Map<string, LaneMessage> }>();
  for (const message of messages) {
    const { lane, status, data1 } = message;
    const kind = status >> 4;
    const number = kind === 0xd || kind === 0xe || kind === 0xc ? 0 : data1;
    let own = touched.get(laneKey(lane));
    if (own === undefined) touched.set(laneKey(lane), (own = { lane, messages: new Map() }));
    own.messages.set(settingKey(kind, number), message);
  }
  const firsts = base === undefined ? new Map<string, LaneFirsts>() : known(base);
  const begin = Math.max(pause, ...copies.map(({ slack }) => settleOf(slack)));
  const pressed = new Set<string>();
  return [...touched.values()].flatMap(({ lane, messages: moved }) => {
    const hearers = copies.flatMap(({ instrument, copy }, i): readonly Hearer[] => {
      const source = hearing(copy.sources, lane);
      if (source === null) return [];
      const program = programFor(instrument, copy.articulation);
      return [{ copy: i, program, source, firsts: firstsFor(copy, program, lane, firsts) }];
    });
    return laneBack(hearers, lane, [...moved.values()], pressed, begin);
  });
};

const memo = new WeakMap<Score, ReturnType<typeof firstSettings>>();

const known = (score: Score): ReturnType<typeof firstSettings> => {
  let found = memo.get(score);
  if (found === undefined) memo.set(score, (found = firstSettings(score)));
  return found;
};

/** @param pressed switches that other lanes put back: each is pressed once */
const laneBack = (
  hearers: readonly Hearer[],
  lane: Lane,
  moved: readonly LaneMessage[],
  pressed: Set<string>,
  begin: number,
): readonly LaneMessage[] => {
  const made: LaneMessage[] = [];
  let seconds = begin;
  const send = (kind: number, data1: number, data2: number): void => {
    made.push({ lane, status: (kind << 4) | lane.channel, data1, data2, seconds });
  };
  const first = (kind: number, number = 0) => {
    const all = hearers.flatMap(
      ({ firsts }) => firsts.settings.get(settingKey(kind, number)) ?? [],
    );
    return all.find(({ tick }) => all.every((one) => tick <= one.tick));
  };
  for (const { status, data1 } of moved) {
    const kind = status >> 4;
    if (kind === 0xa) send(kind, data1, 0);
    else if (kind === 0xb && !isBank(data1) && !isRegistered(data1)) {
      const value = usualValue(hearers, data1, first(kind, data1)?.data2);
      if (value !== null) send(kind, data1, value);
    } else if (kind === 0xd) send(kind, first(kind)?.data1 ?? 0, 0);
    else if (kind === 0xe) send(kind, first(kind)?.data1 ?? 0, first(kind)?.data2 ?? 64);
  }
  if (moved.some(({ status }) => status >> 4 === 0xc)) {
    const banks = [controllers.bankSelectMsb, controllers.bankSelectLsb];
    for (const number of lane.channel === 9 ? [] : banks) {
      seconds += apart;
      send(0xb, number, first(0xb, number)?.data2 ?? 0);
    }
    seconds += apart;
    send(0xc, first(0xc)?.data1 ?? 0, 0);
  }
  const keys = moved.flatMap(({ status, data1 }) => (status >> 4 === 0x9 ? [data1] : []));
  for (const key of switchesBack(hearers, lane, keys, pressed)) {
    seconds += apart;
    send(0x9, key, strength);
    seconds += press;
    send(0x8, key, strength);
  }
  return made;
};

/** The sustain pedal is let go: that starts nothing but what was played. */
export const isPedalUp = ({ status, data1, data2 }: LaneMessage): boolean =>
  status >> 4 === 0xb && data1 === controllers.sustain && data2 === 0;

const isBank = (number: number): boolean =>
  number === controllers.bankSelectMsb || number === controllers.bankSelectLsb;

/** Keys to write: of each switch that was pressed, the first that the base presses, or its default. */
const switchesBack = (
  hearers: readonly Hearer[],
  { channel }: Lane,
  pressed: readonly number[],
  done: Set<string>,
): readonly number[] => {
  const found = new Set<number>();
  for (const { copy, program, source, firsts } of hearers) {
    const { transpose } = source.transform;
    const struck = [...firsts.struck].sort(([, a], [, b]) => a - b).map(([key]) => key);
    for (const [index, signal] of program.signals.entries()) {
      if (signal.kind !== 'switch') continue;
      const isOne = (key: number): boolean =>
        signal.keys.some((range) => contains(range, key + transpose));
      const name = [copy, index, program.scope === 'channel' ? channel : 0].join();
      if (done.has(name) || !pressed.some(isOne)) continue;
      const initial = signal.initial === null ? null : wireKey(source.transform, signal.initial);
      const key = struck.find(isOne) ?? initial;
      if (key === null) continue;
      found.add(key);
      done.add(name);
    }
  }
  return [...found];
};

/** What a controller goes back to; null for those that choose and have no value to go back to. */
const usualValue = (
  hearers: readonly Hearer[],
  written: number,
  first: number | undefined,
): number | null => {
  for (const { program, source } of hearers) {
    const number = source.transform.controllers.get(written) ?? written;
    if (number >= controllers.sustain && number <= lastPedal) return 0;
    for (const signal of program.signals) {
      if (signal.kind !== 'controller' || signal.number !== number) continue;
      if (first !== undefined) return first;
      return signal.selects === true ? signal.initial : (signal.initial ?? powerOnValue(number));
    }
  }
  if (written >= firstMode) return null;
  return first ?? powerOnValue(written);
};
