import type { EventColumns, Score, Track } from './score.ts';

/** The events of one track on one port and channel. */
export interface Part {
  /** Index into {@link Score.tracks}. */
  readonly track: number;
  /** From 0. */
  readonly port: number;
  /** From 0. */
  readonly channel: number;
  /** Channel messages of any kind; at least 1. */
  readonly events: number;
  /** Note-ons; velocity 0 is a note-off and does not count. */
  readonly notes: number;
  /** Ticks of the first and last event of any kind. */
  readonly firstTick: number;
  readonly lastTick: number;
}

const channels = 16;

/** Ports that a track addresses, ascending. */
const portsOf = (track: Track): readonly number[] =>
  track.ports.length === 1 && track.ports[0] !== undefined
    ? [track.ports[0].port]
    : [...new Set(track.ports.map((run) => run.port))].sort((a, b) => a - b);

/** The place of a port and channel among those of its track: 16 x index of the port + channel. */
const slotOf = (ports: readonly number[], port: number, channel: number): number =>
  ports.indexOf(port) * channels + channel;

/** Calls `visit` with each run of events of one port, and the slot of the port's first channel. */
const eachRun = (
  track: Track,
  ports: readonly number[],
  visit: (from: number, to: number, slot: number) => void,
): void => {
  track.ports.forEach((run, index) => {
    const to = track.ports[index + 1]?.from ?? track.events.length;
    visit(run.from, to, slotOf(ports, run.port, 0));
  });
};

/** Numbers by slot, all 0. */
const perSlot = (ports: readonly number[]): number[] =>
  new Array<number>(ports.length * channels).fill(0);

/**
 * 1 for a note-on with a velocity above 0, else 0. By arithmetic: notes on and off come in no order a
 * processor could guess, and wrong guesses cost more than all the rest.
 */
const isNoteOn = (status: number, velocity: number): number =>
  ((((status >> 4) ^ 9) - 1) >>> 31) & ((0 - velocity) >>> 31);

/** What is counted, by slot. */
interface Tally {
  readonly events: number[];
  readonly notes: number[];
  /** Indexes of the first and last event. */
  readonly first: number[];
  readonly last: number[];
}

/** Neighbours mostly share their channel: they are counted together. */
const count = (
  { status, data2 }: EventColumns,
  from: number,
  to: number,
  start: number,
  tally: Tally,
): void => {
  for (let event = from; event < to;) {
    const begin = event;
    const channel = (status[begin] as number) & 0xf;
    let notes = 0;
    do {
      notes += isNoteOn(status[event] as number, data2[event] as number);
      event += 1;
    } while (event < to && ((status[event] as number) & 0xf) === channel);
    const slot = start + channel;
    const before = tally.events[slot] as number;
    if (before === 0) tally.first[slot] = begin;
    tally.last[slot] = event - 1;
    tally.events[slot] = before + event - begin;
    tally.notes[slot] = (tally.notes[slot] as number) + notes;
  }
};

const partsOfTrack = (track: Track, index: number): Part[] => {
  if (track.events.length === 0) return [];
  const ports = portsOf(track);
  const { tick } = track.events;
  const tally = {
    events: perSlot(ports),
    notes: perSlot(ports),
    first: perSlot(ports),
    last: perSlot(ports),
  };
  eachRun(track, ports, (from, to, start) => {
    count(track.events, from, to, start, tally);
  });
  const parts: Part[] = [];
  for (let slot = 0; slot < tally.events.length; slot += 1) {
    const events = tally.events[slot] as number;
    if (events === 0) continue;
    parts.push({
      track: index,
      port: ports[Math.floor(slot / channels)] as number,
      channel: slot % channels,
      events,
      notes: tally.notes[slot] as number,
      firstTick: tick[tally.first[slot] as number] as number,
      lastTick: tick[tally.last[slot] as number] as number,
    });
  }
  return parts;
};

/**
 * The parts of a score: track by track, then by port and channel. A part's port is the one its
 * track addresses where the event stands. Channels without an event make no part; parts with
 * controllers but no notes are listed, with 0 notes.
 */
export const partsOf = (score: Score): readonly Part[] => score.tracks.flatMap(partsOfTrack);

/** Event indexes of a track, part by part, and where those of each slot begin. */
interface PartIndex {
  readonly ports: readonly number[];
  readonly starts: readonly number[];
  readonly order: Uint32Array;
}

/** Made when a track's events are first asked for: a track of many parts is walked once. */
const indexes = new WeakMap<Track, PartIndex>();

/** A counting sort. */
const indexOf = (track: Track): PartIndex => {
  const known = indexes.get(track);
  if (known !== undefined) return known;
  const ports = portsOf(track);
  const { status, length } = track.events;
  const counts = perSlot(ports);
  eachRun(track, ports, (from, to, start) => {
    for (let event = from; event < to; event += 1) {
      const slot = start + ((status[event] as number) & 0xf);
      counts[slot] = (counts[slot] as number) + 1;
    }
  });
  let sum = 0;
  const starts = [0, ...counts.map((count) => (sum += count))];
  const next = [...starts];
  const order = new Uint32Array(length);
  eachRun(track, ports, (from, to, start) => {
    for (let event = from; event < to; event += 1) {
      const slot = start + ((status[event] as number) & 0xf);
      const at = next[slot] as number;
      order[at] = event;
      next[slot] = at + 1;
    }
  });
  const index = { ports, starts, order };
  indexes.set(track, index);
  return index;
};

/**
 * The events of a part: indexes into the columns of its track, ascending.
 *
 * @example
 * for (const event of eventsOf(score, part)) keys.add(track.events.data1[event]);
 */
export const eventsOf = (score: Score, part: Part): Uint32Array => {
  const track = score.tracks[part.track];
  if (track === undefined) return new Uint32Array(0);
  const { ports, starts, order } = indexOf(track);
  const slot = slotOf(ports, part.port, part.channel);
  return order.subarray(starts[slot], starts[slot + 1]);
};
