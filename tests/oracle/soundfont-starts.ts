/**
 * Which keys start when: note-ons, and the notes that a legato pedal or mono mode brings back.
 *
 * Held keys, pedals and tuning are followed once, as the plain reader hears them, with note-ons and
 * note-offs always in file order.
 *
 * Beside the plain held keys, each channel has a loose list of strikes, for engines that keep more
 * keys and stay in mono mode longer. What it brings back stands under `engine`.
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
  /** Whether it starts at all: the doubts that come on top of those of its keys. */
  readonly doubts: number;
}

interface Strike {
  readonly key: number;
  readonly velocity: number;
}

interface Channel {
  /** Keys that are down, the most recently started last. */
  readonly held: Strike[];
  /** Every strike that no note-off has taken back, the oldest first; a key may stand here twice. */
  readonly loose: Strike[];
  legato: boolean;
  mono: boolean;
  /** Some controller 126 has covered this channel since the last reset. Always true in mono mode. */
  everMono: boolean;
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
    const start = ({ key, velocity }: Strike, doubts: number = plain) => {
      const drum = plainHistory.states[index]?.[event.channel]?.drum ?? false;
      const keys = drum
        ? [{ value: key, doubts: plain }]
        : tunedKeys(key, channel.tuning, masterTuning);
      starts.push({ index, channel: event.channel, key, velocity, keys, doubts });
    };

    if (event.kind === 'note-on' && event.velocity > 0) {
      release(channel.held, event.key);
      channel.held.push(event);
      channel.loose.push(event);
      start(event);
    } else if (event.kind === 'note-on' || event.kind === 'note-off') {
      const wasLast = channel.held.at(-1)?.key === event.key;
      release(channel.held, event.key);
      const next = channel.held.at(-1);
      if (wasLast && next !== undefined && (channel.legato || channel.mono)) start(next);

      const wasStruck = release(channel.loose, event.key);
      const looseNext = channel.loose.at(-1);
      if (wasStruck && looseNext !== undefined && (channel.legato || channel.everMono)) {
        start(looseNext, doubtBits.engine);
      }
    } else if (event.kind === 'controller') {
      control(channel, event.number, event.value);
      if (event.number === 126) {
        // The value counts channels from this one on; 0 means all of them up to the last.
        const end = event.value === 0 ? 16 : event.channel + event.value;
        for (const covered of channels.slice(event.channel, end)) covered.everMono = true;
      }
    }
  });
  return starts;
}

function atPowerOn(): Channel {
  return {
    held: [],
    loose: [],
    legato: false,
    mono: false,
    everMono: false,
    parameter: { high: null, low: null },
    tuning: 0,
  };
}

/** Takes out the oldest strike of a key; false if there is none. */
function release(strikes: Strike[], key: number): boolean {
  const at = strikes.findIndex((strike) => strike.key === key);
  if (at >= 0) strikes.splice(at, 1);
  return at >= 0;
}

function control(channel: Channel, number: number, value: number): void {
  if (clearingControllers.includes(number)) channel.held.length = 0;
  if (number === 68) channel.legato = value >= 64;
  if (number === 126) channel.mono = true;
  if (number === 127) channel.mono = false;
  if (number === 101) channel.parameter.high = value;
  if (number === 100) channel.parameter.low = value;
  if (number === 98 || number === 99) channel.parameter = { high: null, low: null };
  // Reset all controllers: pedals up and no parameter selected; keys, mono mode and tuning stay.
  if (number === 121) {
    channel.legato = false;
    channel.parameter = { high: null, low: null };
  }
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
