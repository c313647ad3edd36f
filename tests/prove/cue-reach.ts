import { readFile } from 'node:fs/promises';
import { parseMidi, type MidiEvent } from 'midi-file';
import { minimal } from '../oracle/doubts.ts';
import type { OracleBank } from '../oracle/soundfont-bank.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { chosenPatches, play, type ChosenPatches } from '../oracle/soundfont-player.ts';

/**
 * What real cues reach in a bank, by the naive player of the tests alone: nothing of a plan is
 * believed.
 */

/** Controllers that choose a bank, tune, or change what a note-off starts; the player needs no others. */
const heeded = new Set([0, 6, 32, 68, 98, 99, 100, 101, 120, 121, 123, 124, 125, 126, 127]);

const endOfSysex = 0xf7;

const oracleEvent = (tick: number, event: MidiEvent): OracleEvent | null => {
  switch (event.type) {
    case 'noteOn':
    case 'noteOff': {
      const { channel, noteNumber: key, velocity } = event;
      return event.type === 'noteOn' && velocity > 0
        ? { tick, kind: 'note-on', channel, key, velocity }
        : { tick, kind: 'note-off', channel, key };
    }
    case 'controller': {
      const { channel, controllerType: number, value } = event;
      return heeded.has(number) ? { tick, kind: 'controller', channel, number, value } : null;
    }
    case 'programChange':
      return { tick, kind: 'program', channel: event.channel, program: event.programNumber };
    case 'sysEx':
      return {
        tick,
        kind: 'sysex',
        data: Array.from(event.data).filter((byte) => byte !== endOfSysex),
      };
    default:
      return null;
  }
};

/** The events of a cue in file order, tick by tick. Throws where it plays on more ports than one. */
export const cueEvents = async (cue: string): Promise<readonly OracleEvent[]> => {
  const ports = new Set<number>();
  const events = parseMidi(await readFile(cue)).tracks.flatMap((track) => {
    let tick = 0;
    return track.flatMap((event) => {
      tick += event.deltaTime;
      if (event.type === 'portPrefix') ports.add(event.port);
      return oracleEvent(tick, event) ?? [];
    });
  });
  if (ports.size > 1) throw new Error(`${cue} plays on several ports`);
  return events.sort((a, b) => a.tick - b.tick);
};

/** Channels play apart, unless mono mode is set for several of them: then all at once, and slowly. */
const apart = (events: readonly OracleEvent[]): readonly (readonly OracleEvent[])[] => {
  if (events.some((event) => event.kind === 'controller' && event.number === 126)) return [events];
  const channels = new Set(
    events.flatMap((event) => (event.kind === 'note-on' ? event.channel : [])),
  );
  return [...channels].map((channel) =>
    thinned(events.filter((event) => event.kind === 'sysex' || event.channel === channel)),
  );
};

/**
 * One channel without what changes nothing, because the naive player takes its time for every note.
 * Without a legato pedal nobody asks which keys are held, so note-offs go; and a note that comes again
 * finds the same patch and the same tuning until another kind of event comes.
 */
const thinned = (events: readonly OracleEvent[]): readonly OracleEvent[] => {
  const isLegato = (event: OracleEvent): boolean =>
    event.kind === 'controller' && event.number === 68 && event.value > 0;
  if (events.some(isLegato)) return events;
  const changing = new Set(
    events.flatMap(({ kind, tick }) => (kind === 'note-on' || kind === 'note-off' ? [] : tick)),
  );
  let seen = new Set<string>();
  return events.filter((event) => {
    if (event.kind === 'note-off') return false;
    if (event.kind !== 'note-on') {
      seen = new Set();
      return true;
    }
    // In a tick with other events their order is in question: all its notes stay.
    if (changing.has(event.tick)) return true;
    const name = `${String(event.key)},${String(event.velocity)}`;
    if (seen.has(name)) return false;
    seen.add(name);
    return true;
  });
};

/** Instrument zones by their bag numbers, each with its minimal sets of doubts; 0 is none. */
export type ReachedZones = ReadonlyMap<number, readonly number[]>;

const chosenIn = (reel: readonly (readonly OracleEvent[])[]): ChosenPatches => {
  const chosen = new Map<number, ReturnType<ChosenPatches['get']> & object>();
  for (const events of reel) {
    for (const [channel, patches] of chosenPatches(events)) {
      chosen.set(channel, [...(chosen.get(channel) ?? []), ...patches]);
    }
  }
  return chosen;
};

/** @param reel the cues that may have been played before, this one among them. */
export const reachOf = (
  bank: OracleBank,
  events: readonly OracleEvent[],
  reel: readonly (readonly OracleEvent[])[] = [events],
): ReachedZones => {
  const chosen = chosenIn(reel);
  const reached = new Map<number, readonly number[]>();
  for (const part of apart(events)) {
    for (const [zone, doubts] of play(bank, part, chosen).zones) {
      reached.set(zone, minimal([...(reached.get(zone) ?? []), ...doubts]));
    }
  }
  return reached;
};
