/**
 * What the naive SFZ player reads and what it answers. The instrument comes as plain opcodes in file
 * order, their values still text; the reel is the events of one copy of the instrument.
 */
import { doubtBits } from './doubts.ts';

/** Lower-case names without aliases (`on_loccN` for `start_loccN`, `X_onccN` for `X_ccN`). */
export type SfzOpcode = readonly [name: string, value: string];

export interface SfzHeader {
  /** `control`, `global`, `master`, `group`, `region`, `curve`; any other is passed over. */
  readonly name: string;
  readonly opcodes: readonly SfzOpcode[];
}

export interface SfzData {
  /** A `<control>` before all other headers; more may stand among them. */
  readonly control?: readonly SfzOpcode[];
  readonly headers: readonly SfzHeader[];
}

export interface SfzEvent {
  readonly tick: number;
  readonly seconds: number;
  /** 0-15. */
  readonly channel: number;
  readonly kind:
    'note-on' | 'note-off' | 'controller' | 'bend' | 'pressure' | 'poly-pressure' | 'program';
  /** As in the MIDI message: key, controller number, low seven bits of the bend, value, program. */
  readonly data1: number;
  /** Velocity, controller value, high seven bits of the bend, poly pressure; else 0. */
  readonly data2: number;
}

export interface SfzCue {
  /** In file order: ticks never fall. */
  readonly events: readonly SfzEvent[];
  /** In file order. Before the first: 120. */
  readonly tempos: readonly { readonly tick: number; readonly bpm: number }[];
}

/** All cues that one copy plays. State begins anew with every cue. */
export type SfzReel = readonly SfzCue[];

/** In alphabetical order; [] is the plain reading. */
export type SfzDoubts = readonly string[];

/** One start of one region, for explaining a failure. */
export interface SfzStart {
  readonly region: number;
  readonly cue: number;
  /** Index into the events of the cue; their number for what is released after the last of them. */
  readonly event: number;
  readonly eventKind: SfzEvent['kind'] | 'end-of-cue';
  readonly why: 'note' | 'release' | 'release-key' | 'restrike' | 'cut' | 'controller';
  /** Of the note-on, for releases too; null: started by a controller. */
  readonly key: number | null;
  readonly velocity: number | null;
  /** What it takes for the start to happen. */
  readonly starts: readonly SfzDoubts[];
  /** What it takes for it to be heard; always none for a region without a sound. */
  readonly heard: readonly SfzDoubts[];
}

export interface SfzUsage {
  /** Minimal doubt sets under which the region is heard; none at all: never. */
  readonly reached: readonly SfzDoubts[];
  /** The same for starts that are not heard; only where the region can choke another or be counted. */
  readonly mutes: readonly SfzDoubts[];
}

export interface SfzResult {
  /** By region number. */
  readonly regions: readonly SfzUsage[];
  /** Only those that can happen. */
  readonly starts: readonly SfzStart[];
}

const doubtNames: readonly (readonly [number, string])[] = [
  [doubtBits.engine, 'engine'],
  [doubtBits.noSwitch, 'no-switch'],
  [doubtBits.order, 'order'],
  [doubtBits.pedalHeld, 'pedal-held'],
  [doubtBits.smoothing, 'smoothing'],
  [doubtBits.startState, 'start-state'],
  [doubtBits.tail, 'tail'],
];

/** A doubt set in words, in alphabetical order. */
export function inNames(doubts: number): string[] {
  return doubtNames.filter(([bit]) => (doubts & bit) !== 0).map(([, name]) => name);
}

/** Velocity 0 is a note-off. */
export function isNoteOn(event: SfzEvent): boolean {
  return event.kind === 'note-on' && event.data2 > 0;
}

export function isNoteOff(event: SfzEvent): boolean {
  return event.kind === 'note-off' || (event.kind === 'note-on' && event.data2 === 0);
}

export function isController(event: SfzEvent, number: number): boolean {
  return event.kind === 'controller' && event.data1 === number;
}

/** All sound off, all notes off, and the mode messages that mean the same: every key goes up. */
export function liftsAllKeys(event: SfzEvent): boolean {
  return (
    event.kind === 'controller' &&
    (event.data1 === 120 || (event.data1 >= 123 && event.data1 <= 127))
  );
}

/** Signed, -8192 to 8191. */
export function bendOf(event: SfzEvent): number {
  return event.data1 + 128 * event.data2 - 8192;
}
