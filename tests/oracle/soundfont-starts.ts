/**
 * Which keys start when: note-ons, and the notes that a legato pedal or mono mode brings back.
 *
 * Held keys, pedals and tuning are followed once, as the plain reader hears them, with note-ons and
 * note-offs always in file order.
 */
import { doubtBits, plain, type Alternative } from './doubts.ts';
import { allChannels, type OracleEvent } from './soundfont-events.ts';
import type { History } from './soundfont-readers.ts';
import { readSysex } from './sysex.ts';

export interface Start {
  /** The event that started it: a note-on, or the note-off that let a held key sound again. */
  readonly index: number;
  readonly channel: number;
  /** The key that was played. */
  readonly key: number;
  readonly velocity: number;
  /** The keys by which zones are chosen: the played one, and under `engine` the tuned ones. */
  readonly keys: readonly Alternative<number>[];
}

interface Channel {
  /** Keys that are down, the most recently started last. */
  readonly held: { readonly key: number; readonly velocity: number }[];
  legato: boolean;
  mono: boolean;
  /** The registered parameter that controller 6 would set; null: none. */
  parameter: { high: number | null; low: number | null };
  /** Coarse tuning in semitones. */
  tuning: number;
}

const clearingControllers = [120, 123, 124, 125, 126, 127];

/** All starts of a cue, in file order. */
export function startsOf(events: readonly OracleEvent[], plainHistory: History): Start[] {
  let channels = allChannels.map(atPowerOn);
  let masterTuning = 0;
  const starts: Start[] = [];

  events.forEach((event, index) => {
    if (event.kind === 'sysex') {
      const meaning = readSysex(event.data);
      if (meaning?.what === 'master-coarse-tuning') masterTuning = meaning.semitones;
      if (plainHistory.resets[index]) {
        channels = allChannels.map(atPowerOn);
        masterTuning = 0;
      }
      return;
    }

    const channel = channels[event.channel] ?? atPowerOn();
    const start = (key: number, velocity: number) => {
      const drum = plainHistory.states[index]?.[event.channel]?.drum ?? false;
      const keys = drum
        ? [{ value: key, doubts: plain }]
        : tunedKeys(key, channel.tuning, masterTuning);
      starts.push({ index, channel: event.channel, key, velocity, keys });
    };

    if (event.kind === 'note-on' && event.velocity > 0) {
      release(channel, event.key);
      channel.held.push({ key: event.key, velocity: event.velocity });
      start(event.key, event.velocity);
    } else if (event.kind === 'note-on' || event.kind === 'note-off') {
      const wasLast = channel.held.at(-1)?.key === event.key;
      release(channel, event.key);
      const next = channel.held.at(-1);
      if (wasLast && next !== undefined && (channel.legato || channel.mono)) {
        start(next.key, next.velocity);
      }
    } else if (event.kind === 'controller') {
      control(channel, event.number, event.value);
    }
  });
  return starts;
}

function atPowerOn(): Channel {
  return {
    held: [],
    legato: false,
    mono: false,
    parameter: { high: null, low: null },
    tuning: 0,
  };
}

function release(channel: Channel, key: number): void {
  const at = channel.held.findIndex((held) => held.key === key);
  if (at >= 0) channel.held.splice(at, 1);
}

function control(channel: Channel, number: number, value: number): void {
  if (clearingControllers.includes(number)) channel.held.length = 0;
  if (number === 68) channel.legato = value >= 64;
  if (number === 126) channel.mono = true;
  if (number === 127) channel.mono = false;
  if (number === 101) channel.parameter.high = value;
  if (number === 100) channel.parameter.low = value;
  if (number === 98 || number === 99) channel.parameter = { high: null, low: null };
  if (number === 6 && channel.parameter.high === 0 && channel.parameter.low === 2) {
    channel.tuning = value - 64;
  }
}

/** The played key plainly; with the channel's tuning, the master's, or both, if the engine uses it. */
function tunedKeys(key: number, tuning: number, masterTuning: number): Alternative<number>[] {
  const tuned = [key + tuning, key + masterTuning, key + tuning + masterTuning];
  return [
    { value: key, doubts: plain },
    ...tuned
      .filter((value) => value >= 0 && value <= 127)
      .map((value) => ({ value, doubts: doubtBits.engine })),
  ];
}
