import { eventsOf, partsOf, type Part } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { controllers } from '../terms/controllers.ts';
import { percussionChannel } from '../terms/general-midi.ts';
import { toRanges, type Range } from '../terms/range.ts';
import { likelySwitches, shortNoteTicks } from './likely-switches.ts';
import type { PartNotes } from './note-usage.ts';

const keyCount = 128;

/** Lowest, highest and number of the values seen under each of 128 numbers. */
class Extents {
  readonly counts = new Uint32Array(keyCount);
  private readonly lowest = new Uint8Array(keyCount).fill(127);
  private readonly highest = new Uint8Array(keyCount);

  add(number: number, value: number): void {
    this.counts[number] = (this.counts[number] ?? 0) + 1;
    if (value < (this.lowest[number] ?? 127)) this.lowest[number] = value;
    if (value > (this.highest[number] ?? 0)) this.highest[number] = value;
  }

  range(number: number): Range {
    return [this.lowest[number] ?? 0, this.highest[number] ?? 0];
  }

  /** The numbers seen, ascending. */
  seen(): readonly number[] {
    return [...this.counts.keys()].filter((number) => (this.counts[number] ?? 0) > 0);
  }
}

/** Longest note on each key, in ticks. */
class Lengths {
  readonly longest = new Float64Array(keyCount);
  /** Tick from which a key has been held, or -1. Notes that overlap on one key are one long one. */
  private readonly since = new Float64Array(keyCount).fill(-1);

  on(key: number, tick: number): void {
    if (this.since[key] === -1) this.since[key] = tick;
  }

  off(key: number, tick: number): void {
    const since = this.since[key] ?? -1;
    if (since === -1) return;
    this.longest[key] = Math.max(this.longest[key] ?? 0, tick - since);
    this.since[key] = -1;
  }

  /** Keys that are never released sound to the end of the track. */
  end(tick: number): void {
    for (let key = 0; key < keyCount; key += 1) this.off(key, tick);
  }
}

type Program = PartNotes['programs'][number];

/** Programs in order of appearance, each with the bank select that was in effect when it came. */
class Programs {
  private bankMsb = 0;
  private bankLsb = 0;
  private readonly found = new Map<number, Program>();

  controller(number: number, value: number): void {
    if (number === controllers.bankSelectMsb) this.bankMsb = value;
    if (number === controllers.bankSelectLsb) this.bankLsb = value;
  }

  change(program: number): void {
    const { bankMsb, bankLsb } = this;
    const id = (bankMsb * keyCount + bankLsb) * keyCount + program;
    if (!this.found.has(id)) this.found.set(id, { bankMsb, bankLsb, program });
  }

  list(): readonly Program[] {
    return [...this.found.values()];
  }
}

const velocitiesOf = (keys: Extents): Range | null => {
  const ranges = keys.seen().map((key) => keys.range(key));
  if (ranges.length === 0) return null;
  return [Math.min(...ranges.map(([lo]) => lo)), Math.max(...ranges.map(([, hi]) => hi))];
};

const countPart = (score: Score, part: Part, file: number): PartNotes | null => {
  const track = score.tracks[part.track];
  const division = score.timelines[track?.timeline ?? -1]?.division;
  if (track === undefined || division === undefined) return null;
  const { tick, status, data1, data2 } = track.events;
  const keys = new Extents();
  const values = new Extents();
  const lengths = new Lengths();
  const programs = new Programs();
  for (const event of eventsOf(score, part)) {
    const first = data1[event] as number;
    const second = data2[event] as number;
    switch ((status[event] as number) >> 4) {
      case 0x9:
        if (second === 0) lengths.off(first, tick[event] as number);
        else {
          keys.add(first, second);
          lengths.on(first, tick[event] as number);
        }
        break;
      case 0x8:
        lengths.off(first, tick[event] as number);
        break;
      case 0xb:
        values.add(first, second);
        programs.controller(first, second);
        break;
      case 0xc:
        programs.change(first);
        break;
    }
  }
  lengths.end(track.end);
  const short = shortNoteTicks(division);
  return {
    file,
    track: track.index,
    trackName: track.name,
    port: part.port + 1,
    channel: part.channel + 1,
    notes: part.notes,
    keys: toRanges(keys.seen()),
    velocities: velocitiesOf(keys),
    controllers: values.seen().map((number) => ({
      number,
      events: values.counts[number] ?? 0,
      range: values.range(number),
    })),
    programs: programs.list(),
    likelySwitches:
      part.channel + 1 === percussionChannel
        ? []
        : likelySwitches(keys.counts, (key) => (lengths.longest[key] ?? 0) < short),
  };
};

/**
 * What each part of a score plays: track x port x channel, ascending. A note-on with velocity 0 is a
 * note-off. Parts with controllers or programs and no notes are listed. Bank select is followed
 * within the part and takes effect at the next program change (MIDI 1.0 Detailed Specification,
 * "Bank Select").
 *
 * @param file which of the cue's files the score is, from 0
 */
export const countNotes = (score: Score, file = 0): readonly PartNotes[] =>
  partsOf(score).flatMap((part) => countPart(score, part, file) ?? []);
