/**
 * Which patches a channel may have when a note starts: the one that stands there in the file, and
 * those it would have if the events of one tick came in another order (`order`), or if something had
 * chosen a program before the cue began (`start-state`).
 */
import { doubtBits, plain, type Alternative } from './doubts.ts';
import type { OracleEvent } from './soundfont-events.ts';
import {
  bankInEffect,
  followReader,
  plainReader,
  powerOnPatch,
  powerOnState,
  type History,
  type Patch,
} from './soundfont-readers.ts';

/** Patches by channel. */
export type ChosenPatches = ReadonlyMap<number, readonly Patch[]>;

/**
 * Every patch that the events choose on each channel, in the plain reader's eyes, whichever way the
 * events of a tick are ordered. A caller with several cues joins their lists.
 */
export function chosenPatches(events: readonly OracleEvent[]): ChosenPatches {
  const history = followReader(plainReader, events);
  const chosen = new Map<number, Patch[]>();
  for (const channel of setChannels(history)) {
    const ticks = new Set(events.map((event) => event.tick));
    const patches = [...ticks].flatMap((tick) => withinTick(history, events, channel, tick));
    chosen.set(channel, different(patches));
  }
  return chosen;
}

/**
 * The patches of `channel` at event `index`, in one reader's eyes. The first is the one that the file
 * has at that place; it carries the reader's own doubts and no other. Some may come more than once.
 */
export function patchesAt(
  history: History,
  events: readonly OracleEvent[],
  chosen: ChosenPatches,
  channel: number,
  index: number,
): Alternative<Patch>[] {
  const tick = tickOf(events, index);
  const before = beforeTick(history, events, chosen, channel, tick);
  const here = setsWithin(history, events, channel, tick).filter((set) => set.index < index);
  const last = here.at(-1);
  const alternatives = [
    ...(last === undefined ? before : [{ value: last.patch, doubts: plain }]),
    ...before.map(({ value, doubts }) => ({ value, doubts: doubts | doubtBits.order })),
    ...withinTick(history, events, channel, tick).map((value) => ({
      value,
      doubts: doubtBits.order,
    })),
  ];
  return alternatives.map(({ value, doubts }) => ({
    value,
    doubts: doubts | history.reader.doubts,
  }));
}

/** True until a tick has passed that set the channel's patch. */
export function isUnset(
  history: History,
  events: readonly OracleEvent[],
  channel: number,
  tick: number,
): boolean {
  return lastSettingTick(history, events, channel, tick) === undefined;
}

/** What the ticks before `tick` have left, without the reader's own doubts. */
function beforeTick(
  history: History,
  events: readonly OracleEvent[],
  chosen: ChosenPatches,
  channel: number,
  tick: number,
): Alternative<Patch>[] {
  const earlier = lastSettingTick(history, events, channel, tick);
  if (earlier === undefined) {
    const fromElsewhere = history.reader === plainReader ? (chosen.get(channel) ?? []) : [];
    return [
      { value: powerOnPatch(channel), doubts: plain },
      ...fromElsewhere.map((value) => ({ value, doubts: doubtBits.startState })),
    ];
  }
  const inFileOrder = setsWithin(history, events, channel, earlier).slice(-1);
  return [
    ...inFileOrder.map(({ patch }) => ({ value: patch, doubts: plain })),
    ...withinTick(history, events, channel, earlier).map((value) => ({
      value,
      doubts: doubtBits.order,
    })),
  ];
}

/**
 * Every patch that the channel may take on within a tick: those the file sets, and, where a tick has
 * bank selects as well as program changes, each of its programs with each bank in effect at its start
 * or at any moment within it.
 */
function withinTick(
  history: History,
  events: readonly OracleEvent[],
  channel: number,
  tick: number,
): Patch[] {
  const set = setsWithin(history, events, channel, tick).map(({ patch }) => patch);
  const indices = events.flatMap((event, index) => (event.tick === tick ? [index] : []));
  const inTick = events.filter(
    (event) => event.tick === tick && event.kind !== 'sysex' && event.channel === channel,
  );
  const programs = inTick.flatMap((event) => (event.kind === 'program' ? [event.program] : []));
  const hasBankSelect = inTick.some(
    (event) => event.kind === 'controller' && (event.number === 0 || event.number === 32),
  );
  if (!hasBankSelect) return set;

  const first = indices[0] ?? 0;
  const banks = [first - 1, ...indices].map((index) =>
    bankInEffect(history.states[index]?.[channel] ?? powerOnState(channel)),
  );
  return [...set, ...programs.flatMap((program) => banks.map((bank) => ({ bank, program })))];
}

/** The events of a tick that set the channel's patch. */
function setsWithin(
  history: History,
  events: readonly OracleEvent[],
  channel: number,
  tick: number,
): { index: number; patch: Patch }[] {
  return history.patches.flatMap((set, index) => {
    const patch = set.get(channel);
    return patch !== undefined && tickOf(events, index) === tick ? [{ index, patch }] : [];
  });
}

/** The last tick before `tick` that set the channel's patch. */
function lastSettingTick(
  history: History,
  events: readonly OracleEvent[],
  channel: number,
  tick: number,
): number | undefined {
  return history.patches
    .flatMap((set, index) => (set.has(channel) ? [tickOf(events, index)] : []))
    .filter((earlier) => earlier < tick)
    .at(-1);
}

function setChannels(history: History): Set<number> {
  return new Set(history.patches.flatMap((set) => [...set.keys()]));
}

function tickOf(events: readonly OracleEvent[], index: number): number {
  return events[index]?.tick ?? 0;
}

function different(patches: readonly Patch[]): Patch[] {
  return patches.filter(
    (patch, index) =>
      patches.findIndex((other) => other.bank === patch.bank && other.program === patch.program) ===
      index,
  );
}
