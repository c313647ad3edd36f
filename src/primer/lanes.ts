import type { Instrument } from '../instruments/instrument.ts';
import type { Score } from '../midi/score.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import type { RoutedCopy } from '../template/routed.ts';
import type { DoubtSet } from '../terms/doubt.ts';

/** Where events of a primer stand: a track of it, a port and a channel, all from 0. */
export interface Lane {
  readonly track: number;
  readonly port: number;
  readonly channel: number;
}

/** What a track of the primer is called, and the port it begins on. */
export interface PrimerTrack {
  readonly name: string | null;
  /** FF 04 and FF 09 of the base's track. */
  readonly instrumentName: string | null;
  readonly deviceName: string | null;
  /** From 0. */
  readonly port: number;
}

/** One copy of an instrument that the primer has to load. */
export interface CopyToPrime {
  readonly instrument: Instrument;
  readonly machine: string;
  /** As the base export is routed; `sources` name tracks of the primer, added ones too. */
  readonly copy: RoutedCopy;
  /** Zones to start in this copy, indices into the instrument's. */
  readonly wanted: readonly number[];
  /** Zones that may be started in it: 1. */
  readonly kept: ZoneMask;
  /** Doubts that were answered as the plain reading: what only they start is no harm. */
  readonly excluded: DoubtSet;
  /** Seconds within which a switch and a note may stand in either order; 0 when left out. */
  readonly slack?: number;
}

/** Copies that hear tracks in common, so that no note of one may load what another has dropped. */
export interface LaneGroup {
  /** Of its first copy. */
  readonly machine: string;
  readonly copies: readonly CopyToPrime[];
  /** The base: at the end things go back to what it sets first. */
  readonly base?: Score;
}

/** A channel message as it is written into the file, before any route changes it. */
export interface LaneMessage {
  readonly lane: Lane;
  /** Kind and channel: 0x80-0xEF. */
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
  /** From the beginning of its step. */
  readonly seconds: number;
}

/** One note of the primer with all that makes it start what it should. */
export interface PrimingStep {
  /** Ascending by time; key switches, controllers, the note, its end, pedals up again. */
  readonly messages: readonly LaneMessage[];
  /** Until the next step of these copies may begin: every note is over by then. */
  readonly seconds: number;
  /** Notes that it strikes, switches included. */
  readonly notes: number;
}

/** The notes that load a group's copies. */
export interface Synthesis {
  readonly group: LaneGroup;
  readonly steps: readonly PrimingStep[];
  /** Messages that put things back at the end. */
  readonly restore: readonly LaneMessage[];
  /** By copy of the group, zones that the steps start for certain. */
  readonly primed: readonly (readonly number[])[];
  /** By copy of the group, wanted zones that they do not. */
  readonly notPrimed: readonly (readonly {
    readonly zone: number;
    readonly because: 'doubt' | 'others' | 'conditions' | 'no-track';
  }[])[];
  /** By copy of the group, zones that their player picks by chance; null for none. */
  readonly chances: readonly ({
    readonly zones: number;
    readonly plays: number;
    readonly miss: number;
  } | null)[];
}

/** A message of an excerpt. */
export interface ExcerptMessage {
  /** From the beginning of the excerpt, in quarter notes. */
  readonly quarter: number;
  readonly track: number;
  readonly port: number;
  readonly message:
    | { readonly status: number; readonly data1: number; readonly data2: number }
    /** System exclusive: the bytes between F0 and F7. */
    | { readonly data: Uint8Array };
}

/** Bars of a cue, ready to be put behind the notes of a primer; state set first, keys up at the end. */
export interface ExcerptEvents {
  /** In quarter notes. */
  readonly length: number;
  /** From quarter 0 on. */
  readonly tempo: readonly { readonly quarter: number; readonly microsecondsPerQuarter: number }[];
  readonly meter: readonly {
    readonly quarter: number;
    readonly beats: number;
    readonly unit: number;
  }[];
  /** Ascending by quarter. */
  readonly messages: readonly ExcerptMessage[];
}

export interface PrimerInput {
  readonly format: 0 | 1;
  readonly tracks: readonly PrimerTrack[];
  /** Ticks per quarter note: the base's, or 480. */
  readonly ticksPerQuarter: number;
  /** FF 01 at the beginning of the first track. */
  readonly text: string;
  readonly syntheses: readonly Synthesis[];
  readonly excerpts: readonly ExcerptEvents[];
  /** Messages that put back what excerpts have moved. */
  readonly restore?: readonly LaneMessage[];
  /** Notes a second per machine at most. */
  readonly pace: number;
}

export interface WrittenPrimer {
  readonly bytes: Uint8Array;
  readonly seconds: number;
  readonly notes: number;
  /** Seconds at which each excerpt begins. */
  readonly excerptsAt: readonly number[];
  /** Seconds that each machine plays, excerpts left out. */
  readonly machines: ReadonlyMap<string, number>;
}
