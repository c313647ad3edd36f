import type { SysEx, Timeline, Track } from '../midi/score.ts';
import { unchanged, type Transform } from '../template/route.ts';
import type { Reads } from './reads.ts';

/** The status under which a system exclusive message stands in a {@link CopyStream}. */
export const sysexStatus = 0xf0;

/**
 * All events that drive one copy, merged in file order: by tick, then by track, then by place in the
 * track. Columns of equal length.
 */
export interface CopyStream {
  /** Names the copy across the cues of a reel. */
  readonly copy: string;
  readonly timeline: Timeline;
  readonly length: number;
  readonly tick: Float64Array;
  /** A channel message's status byte, or {@link sysexStatus}. */
  readonly status: Uint8Array;
  readonly data1: Uint8Array;
  readonly data2: Uint8Array;
  /** Track number in the file. */
  readonly track: Uint32Array;
  /** Position in the track; for system exclusive, index into {@link CopyStream.sysex}. */
  readonly event: Uint32Array;
  readonly sysex: readonly SysEx[];
  /** The last tick of its tracks. */
  readonly end: number;
  /** Some of what it hears could not be read. */
  readonly damaged: boolean;
  /** Note-ons, those of velocity 0 left out. */
  readonly notes: number;
  /** Ticks of note-ons that transposing puts outside 0-127: nothing gets them. */
  readonly lost: readonly number[];
}

/** What a copy hears of a track. */
export interface Source {
  readonly track: Track;
  /** Per port, for each of the 16 channels what becomes of its events; null: not heard. */
  readonly hears: ReadonlyMap<number, readonly (Transform | null)[]>;
  /** Ports whose system exclusive messages it hears: they reach every copy of a port. */
  readonly systemOf: ReadonlySet<number>;
}

const isNote = (status: number): boolean => status < 0xa0;

/**
 * Merges tracks into the stream of one copy.
 *
 * @param wanted which messages the copy's instrument reads; notes are always taken
 */
export const mergeTracks = (
  copy: string,
  timeline: Timeline,
  sources: readonly Source[],
  wanted: Reads,
): CopyStream => {
  const capacity = sources.reduce(
    (sum, s) => sum + s.track.events.length + s.track.sysex.length,
    0,
  );
  const unsorted = columns(capacity);
  const { tick, status, data1, data2, track: tracks, event } = unsorted;
  const sysex: SysEx[] = [];
  const runs: number[] = [0];
  let length = 0;
  let notes = 0;
  const lost: number[] = [];
  for (const source of sources) {
    const { index, events } = source.track;
    for (const piece of piecesOf(source)) {
      if ('data' in piece) {
        tick[length] = piece.tick;
        status[length] = sysexStatus;
        tracks[length] = index;
        event[length++] = sysex.length;
        sysex.push(piece);
        continue;
      }
      for (let i = piece.from; i < piece.to; i++) {
        const byte = events.status[i]!;
        let first = events.data1[i]!;
        let second = events.data2[i]!;
        const transform = piece.by[byte & 0x0f] ?? null;
        if (transform === null) continue;
        if (isNote(byte)) {
          const strikes = byte >= 0x90 && second > 0;
          if (transform !== unchanged) {
            first += transform.transpose;
            if (strikes) second = scaled(second, transform.velocity);
            if (first < 0 || first > 127) {
              if (strikes) lost.push(events.tick[i]!);
              continue;
            }
          }
          notes += Number(strikes);
        } else {
          if (byte >> 4 === 0xb) first = transform.controllers.get(first) ?? first;
          else if (byte >> 4 === 0xa) first += transform.transpose;
          if (first < 0 || first > 127) continue;
          if (wanted[(byte >> 4) * 128 + first] === 0) continue;
        }
        tick[length] = events.tick[i]!;
        status[length] = byte;
        data1[length] = first;
        data2[length] = second;
        tracks[length] = index;
        event[length++] = i;
      }
    }
    runs.push(length);
  }
  const order = mergeRuns(unsorted.tick, runs);
  return {
    copy,
    timeline,
    length,
    ...(order === null ? trimmed(unsorted, length) : permuted(unsorted, order)),
    sysex,
    end: sources.reduce((last, { track }) => Math.max(last, track.end), 0),
    damaged: sources.some(({ track, hears }) => track.damage !== null && hears.size > 0),
    notes,
    lost,
  };
};

/** A note-on velocity, rounded half up and kept to 1-127: scaling never turns a note off. */
const scaled = (velocity: number, factor: number): number =>
  factor === 1
    ? velocity
    : Math.min(127, Math.max(1, Math.floor(Number((velocity * factor).toPrecision(12)) + 0.5)));

/** A stretch of channel messages, from `from` up to, not with, `to`. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** By channel, what becomes of its events. */
  readonly by: readonly (Transform | null)[];
}

/** What a copy hears of a track, in file order: stretches of one port, and the messages between. */
const piecesOf = ({ track, hears, systemOf }: Source): readonly (Stretch | SysEx)[] => {
  const pieces: (Stretch | SysEx)[] = [];
  const { ports, sysex, events } = track;
  const heard = sysex.filter(({ port }) => systemOf.has(port));
  let next = 0;
  ports.forEach((run, i) => {
    const end = ports[i + 1]?.from ?? events.length;
    const by = hears.get(run.port);
    let from = run.from;
    for (; next < heard.length && heard[next]!.before < end; next++) {
      const { before } = heard[next]!;
      if (by !== undefined) pieces.push({ from, to: before, by });
      pieces.push(heard[next]!);
      from = before;
    }
    if (by !== undefined) pieces.push({ from, to: end, by });
  });
  return [...pieces, ...heard.slice(next)];
};

type Columns = Pick<CopyStream, 'tick' | 'status' | 'data1' | 'data2' | 'track' | 'event'>;

const columns = (length: number): Columns => ({
  tick: new Float64Array(length),
  status: new Uint8Array(length),
  data1: new Uint8Array(length),
  data2: new Uint8Array(length),
  track: new Uint32Array(length),
  event: new Uint32Array(length),
});

const trimmed = (from: Columns, length: number): Columns => ({
  tick: from.tick.subarray(0, length),
  status: from.status.subarray(0, length),
  data1: from.data1.subarray(0, length),
  data2: from.data2.subarray(0, length),
  track: from.track.subarray(0, length),
  event: from.event.subarray(0, length),
});

const permuted = (from: Columns, order: Uint32Array): Columns => {
  const to = columns(order.length);
  for (let i = 0; i < order.length; i++) {
    const source = order[i]!;
    to.tick[i] = from.tick[source]!;
    to.status[i] = from.status[source]!;
    to.data1[i] = from.data1[source]!;
    to.data2[i] = from.data2[source]!;
    to.track[i] = from.track[source]!;
    to.event[i] = from.event[source]!;
  }
  return to;
};

/**
 * The stable order of several ascending runs laid end to end, `runs` being their borders, or null
 * when they are in order as they lie. Pairs of neighbours are merged until one run is left.
 */
const mergeRuns = (tick: Float64Array, runs: readonly number[]): Uint32Array | null => {
  const length = runs.at(-1)!;
  let borders = runs.filter((border, i) => i === 0 || border > runs[i - 1]!);
  if (borders.length <= 2) return null;
  let from = Uint32Array.from({ length }, (_, i) => i);
  let to = new Uint32Array(length);
  while (borders.length > 2) {
    const next = [0];
    for (let i = 0; i + 1 < borders.length; i += 2) {
      const left = borders[i]!;
      const middle = borders[i + 1]!;
      const right = borders[i + 2] ?? middle;
      let a = left;
      let b = middle;
      for (let out = left; out < right; out++) {
        const takeLeft = a < middle && (b >= right || tick[from[a]!]! <= tick[from[b]!]!);
        to[out] = takeLeft ? from[a++]! : from[b++]!;
      }
      next.push(right);
    }
    [from, to] = [to, from];
    borders = next;
  }
  return from;
};
