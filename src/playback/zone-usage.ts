import type { Timeline } from '../midi/score.ts';
import type { Stretches } from '../midi/stretches.ts';
import type { StartEvent } from '../instruments/program.ts';
import type { Routing } from '../template/routes/routing.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';
import type { Alternative } from './alternatives.ts';
import type { ControllerRange } from './controller-ranges.ts';

/**
 * What cues ask of instruments, before any decision: settling, headroom, pins and zones are computed
 * from it in `keep/` and never stored in it. Plain JSON, so usage from many machines merges.
 */
export interface ZoneUsage {
  readonly schema: 'keepset/zone-usage@1';
  /** sha256 of the template it was made with, or null. */
  readonly template: string | null;
  /** id -> sha256 of the instrument's definition. */
  readonly instruments: Readonly<Record<string, string>>;
  /** Steps by which a plan may widen controllers, beside none: ascending, each told exactly. */
  readonly controllerRooms: readonly number[];
  /** Classes hold all their places, not the first three. */
  readonly everyPlace: boolean;
  readonly choices: UsageChoices;
  /** Paths of all files that the template's own `cues` name, ascending. */
  readonly reel: readonly string[];
  /** Files that were named and left out, by id or for a newer version. */
  readonly leftOut: readonly LeftCue[];
  /** One entry per file that was read, by {@link sourceKey}. */
  readonly sources: Readonly<Record<string, SourceUsage>>;
  /** One entry per cue file, by {@link usageKey}; of a file that holds several cues, one for each. */
  readonly files: Readonly<Record<string, FileUsage>>;
}

/** What the user said of the cues; lists ascend. */
export interface UsageChoices {
  /** Ids of cues that were left out. */
  readonly without: readonly string[];
  readonly newest: boolean;
  /** Ids of cues that look incomplete and are whole by the user's word. */
  readonly acceptPartial: readonly string[];
  readonly split: 'markers' | null;
}

/** A cue file that was left out, unread. */
export interface LeftCue {
  readonly cue: string;
  readonly path: string;
  readonly version: number | null;
}

/** What reading a file and routing its parts showed, beside what its cues play. */
export interface SourceUsage {
  readonly path: string;
  readonly sha256: string;
  readonly findings: readonly Finding[];
  /** By cue; of what could not be read nothing is known. */
  readonly routing: Readonly<Record<string, Routing>>;
}

/** One file of a cue. */
export interface FileUsage {
  readonly cue: string;
  readonly path: string;
  readonly sha256: string;
  readonly version: number | null;
  /** Which of the cue's files, from 0. */
  readonly file: number;
  /** What of the file is this cue, in ticks; null: all of it. */
  readonly stretches: Stretches;
  readonly parts: number;
  readonly notes: number;
  /** To the last End of Track; of a part of a file, how long it is. */
  readonly seconds: number;
  /** To the end of the last note, in seconds from the beginning of the cue. */
  readonly music: number;
  readonly state: 'read' | 'damaged' | 'unreadable';
  /** Ids of instruments of which an unreadable stretch may have played anything. */
  readonly tainted: readonly string[];
  readonly timelines: readonly Timeline[];
  readonly tracks: readonly {
    readonly name: string | null;
    readonly timeline: number;
    /** Note-ons. */
    readonly notes: number;
  }[];
  readonly copies: readonly CopyUsage[];
}

/** What one copy of an instrument was asked for. */
export interface CopyUsage {
  readonly instrument: string;
  /** Names the copy across cues: what it chooses in one cue answers for it in another. */
  readonly copy: string;
  /** The articulation it is tied to by its route; null: switches decide. */
  readonly articulation: string | null;
  /** Its tracks are audio already: priced, not needed. */
  readonly printed: boolean;
  /** Note-ons sent to it. */
  readonly notes: number;
  /** Note-ons that transposing put outside 0-127. */
  readonly lostNotes: number;
  /** Interned lists; `states` point into it. */
  readonly alternatives: readonly (readonly Alternative[])[];
  /** Per state, for each signal of the program, an index into `alternatives`. */
  readonly states: readonly (readonly number[])[];
  /** What voices went through while they sounded; only for programs with fades. */
  readonly lives: readonly (readonly Moment[])[];
  readonly classes: readonly UsageClass[];
  /** Values the copy chose, per signal that can be chosen and per channel. */
  readonly chosen: readonly Choice[];
  /** How far the controllers go that shape its sound, as they reach it, by number. */
  readonly controllers: readonly ControllerRange[];
  /** Some of what drives the copy could not be read. */
  readonly damaged: boolean;
}

export interface Choice {
  readonly signal: number;
  /** 0-15, or -1 where the channels share one state. */
  readonly channel: number;
  readonly values: readonly number[];
}

/**
 * A stretch of a voice's life: the range each fading signal passes through meanwhile, in the order of
 * the program's fading signals.
 */
export interface Moment {
  readonly ranges: readonly Range[];
  readonly doubt: DoubtSet;
  /** 0 until the release; after it, only for zones that still sound this many seconds later. */
  readonly after: number;
  /** Index into the holds of the program: only for zones that sound so long; or {@link anyHold}. */
  readonly hold: number;
}

/** However the voice is held. */
export const anyHold = -1;

/** Starts that no rule of the instrument tells apart. */
export interface UsageClass {
  readonly event: StartEvent;
  /** The signal that a `change` has set, or -1. */
  readonly signal: number;
  /** What let the voice go, for starts that depend on it: an index into the program's holds; or {@link anyHold}. */
  readonly hold: number;
  /** 0-15. */
  readonly channel: number;
  /** For a change the value, as the lowest of its band. */
  readonly key: number;
  /** For a change of poly pressure its key, for other changes 0. */
  readonly velocity: number;
  readonly state: number;
  /** Index into `lives`, or -1. */
  readonly life: number;
  /** Doubts of the event as a whole. */
  readonly doubt: DoubtSet;
  readonly count: number;
  /** The first three, in order of track, tick and event; all of them where that was asked for. */
  readonly witnesses: readonly WitnessPlace[];
}

/** An event of a cue file: track, absolute tick, position in the track. */
export type WitnessPlace = readonly [track: number, tick: number, event: number];

/** Identical files under two names are two cues: the name is part of the key. */
export const usageKey = (file: Pick<FileUsage, 'cue' | 'path' | 'sha256'>): string =>
  `${file.sha256} ${file.cue} ${file.path}`;

/** A file is read once, whatever it holds. */
export const sourceKey = ({ path, sha256 }: Pick<SourceUsage, 'path' | 'sha256'>): string =>
  `${sha256} ${path}`;
