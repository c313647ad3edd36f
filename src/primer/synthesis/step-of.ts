import type { Signal } from '../../instruments/program.ts';
import { controllers } from '../../terms/controllers.ts';
import type { LaneMessage, PrimingStep } from '../lanes.ts';
import { knobOf, type Knob } from './demands.ts';
import type { Performer } from './performer.ts';
import type { Situation } from './situation.ts';
import { settleOf } from './settle.ts';
import { waitFor } from './waits.ts';
import { wireController, wireKey, wireVelocity } from './wire.ts';

/** Shortest note. */
export const noteLength = 0.12;

/** Apart enough to lie on ticks of their own. */
const apart = 0.03;

/** Between the end of a note and the next one. */
const gap = 0.005;

const strength = 64;

/** Messages of one step, put down in their order. */
class StepDraft {
  readonly #situation: Situation;
  readonly #performer: Performer;
  /** Between a switch or controller and the note that needs it, and after a note's end, in seconds. */
  readonly settle: number;
  readonly messages: LaneMessage[] = [];
  seconds = 0;
  notes = 0;

  constructor(situation: Situation, performer: Performer) {
    this.#situation = situation;
    this.#performer = performer;
    this.settle = settleOf(performer.copy.slack);
  }

  /** Keeps away from notes of earlier steps. */
  standOff(): void {
    if (this.seconds === 0 && (this.#performer.copy.slack ?? 0) > 0) this.wait(this.settle);
  }

  wait(seconds: number): void {
    this.seconds += seconds;
  }

  send(kind: number, data1: number, data2 = 0): void {
    const { lane } = this.#situation;
    const status = kind | lane.channel;
    this.messages.push({ lane, status, data1, data2, seconds: this.seconds });
  }

  /** @param velocity as it arrives; 0: the key goes up */
  key(key: number, velocity: number): void {
    const { transform } = this.#situation.source;
    const written = wireKey(transform, key)!;
    if (velocity === 0) {
      this.send(0x80, written, strength);
      return;
    }
    this.notes++;
    this.send(0x90, written, wireVelocity(transform, velocity) ?? strength);
  }

  /** Sets what can be set by one message. @param key of poly pressure */
  turn(knob: Knob, value: number, key: number): void {
    const { transform } = this.#situation.source;
    if (knob.startsWith('controller')) {
      this.send(0xb0, wireController(transform, Number(knob.slice(11)))!, value);
    } else if (knob === 'pressure') this.send(0xd0, value);
    else if (knob === 'program') this.send(0xc0, value);
    else if (knob === 'poly-pressure') this.send(0xa0, wireKey(transform, key)!, value);
    else if (knob === 'bend') this.send(0xe0, (value + 8192) & 127, (value + 8192) >> 7);
  }

  /** Bank select and program change, on ticks of their own. */
  choosePatch(patch: number): void {
    const { lane } = this.#situation;
    if (lane.channel !== 9) {
      this.send(0xb0, controllers.bankSelectMsb, patch % 32768);
      this.wait(apart);
    }
    this.send(0xc0, Math.floor(patch / 32768));
  }

  pressSwitch(key: number): void {
    this.key(key, strength);
    this.wait(noteLength);
    this.key(key, 0);
    this.wait(apart);
  }

  get performer(): Performer {
    return this.#performer;
  }
}

/** Writes a situation as messages, from the state that the performer is in; only what differs is set. */
export const stepOf = (situation: Situation, performer: Performer): PrimingStep => {
  const draft = new StepDraft(situation, performer);
  const { event, key, velocity, change, before, atEnd, endsLast, waits } = situation;
  const { settle } = draft;
  if (waits !== null) draft.wait(waitFor(performer, waits));
  const moved = setUp(draft, situation);
  for (const one of before) {
    draft.key(one.key, one.velocity);
    draft.wait(noteLength);
    if (!one.isHeld) {
      draft.key(one.key, 0);
      draft.wait(settle);
    }
  }
  if (event === 'change') {
    draft.turn(change!, key, velocity);
    draft.wait(noteLength);
  } else {
    draft.key(key, velocity);
    draft.wait(atEnd.size > 0 ? Math.max(noteLength, settle) : noteLength);
    for (const [knob, value] of atEnd) draft.turn(knob, value, key);
    if (atEnd.size > 0) draft.wait(settle);
  }
  const held = before.flatMap((one) => (one.isHeld ? [one.key] : []));
  const own = event === 'change' ? [] : [key];
  for (const [i, down] of (endsLast ? [...held, ...own] : [...own, ...held]).entries()) {
    if (i > 0 || event === 'change') draft.wait(apart);
    draft.key(down, 0);
  }
  const raised = [...new Set([...moved, ...atEnd.keys(), ...(change === null ? [] : [change])])];
  for (const knob of raised) {
    const back = restValue(performer, knob);
    if (back === null || back === (atEnd.get(knob) ?? situation.knobs.get(knob))) continue;
    draft.wait(settle);
    draft.turn(knob, back, key);
  }
  draft.wait(gap);
  return { messages: draft.messages, seconds: draft.seconds, notes: draft.notes };
};

/** Sets everything up for a note; returns what it has moved. */
const setUp = (draft: StepDraft, situation: Situation): readonly Knob[] => {
  const { performer } = draft;
  const { signals } = performer.plain.program;
  const { channel } = situation.lane;
  const fades = new Set(performer.plain.fading.map((one) => knobOf(signals[one]!, one)));
  const presses: [number, number][] = [];
  const turns: [Knob, number][] = [];
  for (const [knob, value] of situation.knobs) {
    const index = signals.findIndex((signal, i) => knobOf(signal, i) === knob);
    const signal = signals[index];
    if (signal === undefined) {
      const number = Number(knob.slice(11));
      const isUp = performer.controllerOf(number, channel) < performer.plain.pedals.get(number)!;
      if (!isUp) turns.push([knob, value]);
      continue;
    }
    if (isSet(performer, signal, index, value, situation)) continue;
    if (signal.kind === 'patch') {
      draft.standOff();
      draft.choosePatch(value);
      draft.wait(draft.settle);
    } else if (signal.kind === 'switch') presses.push([index, value]);
    else turns.push([knob, value]);
  }
  // What was struck last may be moved to what comes now, too (`slack`).
  if (turns.length + presses.length > 0) draft.standOff();
  for (const key of pressesFor(presses, performer, channel, situation)) draft.pressSwitch(key);
  for (const [knob, value] of turns) draft.turn(knob, value, situation.key);
  // Sent twice, what has to be smooth has got there: nothing lies between the last two values.
  const again = turns.filter(([knob]) => fades.has(knob));
  if (again.length > 0) draft.wait(apart);
  for (const [knob, value] of again) draft.turn(knob, value, situation.key);
  if (turns.length > 0 || presses.length > 0) draft.wait(draft.settle);
  return turns.map(([knob]) => knob);
};

/** It stands where it should, because something has put it there. */
const isSet = (
  performer: Performer,
  signal: Signal,
  index: number,
  value: number,
  { lane, key }: Situation,
): boolean => {
  if (signal.kind === 'poly-pressure') {
    return (
      (performer.state.poly.get(key) ?? 0) === value &&
      performer.valueOf(index, lane.channel).value === value
    );
  }
  const { value: now, isTold } = performer.valueOf(index, lane.channel);
  if (signal.kind === 'bend' || signal.kind === 'pressure') return now === value;
  return isTold && now === value;
};

/** Keys to press, in an order after which every switch stands where it should. */
const pressesFor = (
  presses: readonly (readonly [number, number])[],
  performer: Performer,
  channel: number,
  { knobs }: Situation,
): readonly number[] => {
  if (presses.length < 2) return presses.map(([, key]) => key);
  const { signals } = performer.plain.program;
  const keys = [...new Set(presses.map(([, key]) => key))];
  const stands = (order: readonly number[]): boolean =>
    signals.every((signal, i) => {
      const wanted = knobs.get(knobOf(signal, i));
      if (signal.kind !== 'switch' || wanted === undefined) return true;
      const last = order.findLast((key) => signal.keys.some(([lo, hi]) => key >= lo && key <= hi));
      return (last ?? performer.valueOf(i, channel).value) === wanted;
    });
  const orders = [
    keys,
    keys.toReversed(),
    ...keys.map((key) => [...keys.filter((k) => k !== key), key]),
  ];
  return orders.find(stands) ?? keys;
};

/** Pedals go up again; other things stay. */
const restValue = (performer: Performer, knob: Knob): number | null => {
  if (!knob.startsWith('controller')) return null;
  const number = Number(knob.slice(11));
  const isPedal = number >= controllers.sustain && number <= lastPedal;
  return isPedal || performer.plain.pedals.has(number) ? 0 : null;
};

/** Hold 2, the last of the controllers that are pedals (MIDI 1.0, table III). */
const lastPedal = 69;
