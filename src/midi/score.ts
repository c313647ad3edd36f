import type { Finding } from '../terms/finding.ts';
import type { Timecode } from './timecode.ts';

/** What one tick is (SMF 1.0, "Header Chunks", division). */
export type Division =
  | { readonly kind: 'metrical'; readonly ticksPerQuarter: number }
  | { readonly kind: 'smpte'; readonly framesPerSecond: number; readonly ticksPerFrame: number };

/** A tempo from `tick` on, in microseconds per quarter note (FF 51). */
export interface TempoChange {
  readonly tick: number;
  readonly microsecondsPerQuarter: number;
}

/** A meter from `tick` on (FF 58): `beats` per bar, each a 1/`unit` note. */
export interface MeterChange {
  readonly tick: number;
  readonly beats: number;
  readonly unit: number;
}

/** A marker (FF 06) or cue point (FF 07). */
export interface Marker {
  readonly tick: number;
  readonly kind: 'marker' | 'cue-point';
  readonly text: string;
}

/**
 * One flow of time. Formats 0 and 1 have one that all tracks share; in format 2 each track has its
 * own, and so has each further file found behind the first. Changes ascend by tick and the first is
 * at tick 0 (120 quarter notes a minute and 4/4 where the file says nothing, SMF 1.0).
 */
export interface Timeline {
  readonly division: Division;
  readonly tempo: readonly TempoChange[];
  readonly meter: readonly MeterChange[];
  readonly markers: readonly Marker[];
  /** FF 54 as `hh:mm:ss:ff`, or null. */
  readonly smpteOffset: string | null;
  /** FF 54 with its frame rate; null where there is none, or none that a clock could show. */
  readonly timecode: Timecode | null;
}

/** Channel messages of one track in file order, a column each; all of equal `length`. */
export interface EventColumns {
  readonly length: number;
  /** Absolute ticks, never descending. */
  readonly tick: Float64Array;
  /** 0x80 to 0xEF: the kind in the high four bits, the channel (0-15) in the low four. */
  readonly status: Uint8Array;
  /** 0-127. */
  readonly data1: Uint8Array;
  /** 0-127; 0 where the message has one data byte. */
  readonly data2: Uint8Array;
}

/** A system exclusive message, its packets joined. */
export interface SysEx {
  readonly tick: number;
  /** It stands before this event of its track (an index into the columns; may equal `length`). */
  readonly before: number;
  /** The port of its track there, from 0. */
  readonly port: number;
  /** The bytes between F0 and F7, both left out. */
  readonly data: Uint8Array;
}

/** From event `from` on, the track addresses `port` (FF 21), counted from 0. */
export interface PortRun {
  readonly from: number;
  readonly port: number;
}

/** Where and why reading a track stopped: what it plays from `tick` on is unknown. */
export interface Damage {
  readonly tick: number;
  /** Offset in the file. */
  readonly byte: number;
}

export interface Track {
  /** Position among the track chunks of the file, from 0. */
  readonly index: number;
  /** FF 03, the first one; null when the file gives none. */
  readonly name: string | null;
  /** FF 04, the first one. */
  readonly instrumentName: string | null;
  /** FF 09, the first one. */
  readonly deviceName: string | null;
  /** Index into {@link Score.timelines}. */
  readonly timeline: number;
  readonly events: EventColumns;
  readonly sysex: readonly SysEx[];
  /** Never empty; the first run starts at event 0. */
  readonly ports: readonly PortRun[];
  /** The tick of the End of Track, or of the last event read. */
  readonly end: number;
  readonly damage: Damage | null;
}

/** A Standard MIDI File, read. */
export interface Score {
  readonly format: 0 | 1 | 2;
  readonly timelines: readonly Timeline[];
  readonly tracks: readonly Track[];
  /** Track chunks the header promises and the file does not hold: their notes are unknown. */
  readonly missingTracks: number;
  readonly findings: readonly Finding[];
}

/** True when some of the score could not be read: its usage is unknown there, never "unused". */
export const isDamaged = (score: Score): boolean =>
  score.missingTracks > 0 || score.tracks.some((track) => track.damage !== null);

/** True when a key goes down anywhere; velocity 0 is a note-off. */
export const hasNotes = (score: Score): boolean =>
  score.tracks.some(({ events: { status, data2 } }) =>
    status.some((byte, i) => byte >= 0x90 && byte < 0xa0 && data2[i] !== 0),
  );
