import type { DoubtName } from '../terms/doubt.ts';
import type { Finding } from '../terms/finding.ts';
import type { Grain } from '../template/player.ts';
import type { Headroom } from '../template/template.ts';
import type { Range } from '../terms/range.ts';
import type { Settlement, Settlements } from '../terms/settlement.ts';

/**
 * What must stay loaded and why: the result of `plan`, and the keep file (design, section 10). Bytes
 * are whole numbers; bars and beats count from 1, tracks from 0; `seconds` have three decimals.
 */
export interface Plan {
  readonly schema: 'keepset/plan@1';
  readonly settings: PlanSettings;
  readonly template: { readonly sha256: string } | null;
  readonly cues: readonly PlanCue[];
  readonly instruments: readonly PlanInstrument[];
  readonly machines: readonly PlanMachine[];
  readonly doubts: readonly PlanDoubt[];
  /** Two or three doubts that free more together than one by one. */
  readonly together: readonly { readonly names: readonly DoubtName[]; readonly bytes: number }[];
  /** What caution costs in total: bytes freed if every open doubt were settled as plain. */
  readonly doubtsAll: number;
  /** Tracks that are audio already: what their sounds would take on top. */
  readonly printed: { readonly parts: number; readonly zones: number; readonly bytes: number };
  /** What headroom and pins keep beyond what is needed. */
  readonly allowances: PlanAllowances;
  /** Cues that are there in several versions, and what the older ones cost. */
  readonly versions: readonly PlanVersions[];
  /** What few notes reach, to decide on; null where it was not asked for. */
  readonly rare: PlanRare | null;
  /** What room would have done for cues that nobody knew of; null where it was not asked for. */
  readonly headroomCurve: PlanHeadroomCurve | null;
  readonly total: PlanTotal;
  readonly findings: readonly Finding[];
}

/** What the user chose; nothing else may change a plan. */
export interface PlanSettings {
  /** The one instrument that plays all, where there is no template. */
  readonly instrument: string | null;
  /** Doubts answered for the whole template. */
  readonly settle: Settlements;
  readonly headroom: Headroom;
  readonly pins: readonly PlanPin[];
  /** Seconds within which a switch and a note may stand in either order. */
  readonly slack: number;
  /** Parts that no rule takes were accepted by the user's word. */
  readonly allowUnmapped: boolean;
  /** Cues left out by the user's word. */
  readonly without: readonly string[];
  /** Only the newest version of each cue counts. */
  readonly newest: boolean;
  /** Cues that look as if something were missing and are whole by the user's word. */
  readonly acceptPartial: readonly string[];
  /** `markers`: one file holds several cues, and its markers part them. */
  readonly split: 'markers' | null;
}

export interface PlanPin {
  readonly instrument: string;
  readonly articulation: string | null;
  readonly keys: Range | null;
  readonly velocities: Range | null;
}

export interface PlanCue {
  readonly id: string;
  readonly files: readonly { readonly path: string; readonly sha256: string }[];
  readonly version: number | null;
  readonly parts: number;
  readonly notes: number;
  readonly seconds: number;
  /** Seconds to the end of the last note. */
  readonly music: number;
  /** Seconds to the last marker (FF 06); null: it has none. */
  readonly lastMarker: number | null;
  /** The time code at its beginning (FF 54), `hh:mm:ss:ff`; null where the file gives none. */
  readonly timecode: string | null;
  readonly state: 'read' | 'damaged' | 'unreadable';
  /** Names of its tracks in file order, each once: a revision without one of them looks incomplete. */
  readonly tracks: { readonly played: readonly string[]; readonly silent: readonly string[] };
}

export interface PlanInstrument {
  readonly id: string;
  readonly source: string;
  readonly sha256: string;
  readonly machine: string;
  readonly player: string;
  readonly zones: number;
  readonly zonesKept: number;
  readonly samples: number;
  readonly samplesKept: number;
  readonly bytes: InstrumentBytes;
  /** Whether copies, and instruments of one definition on one machine, hold a sample once. */
  readonly shares: 'copy' | 'machine';
  /** How the player lets go: kept zones are whole units of this. */
  readonly unloads: Grain;
  /** Doubts answered for this instrument, the template's answers included. */
  readonly settle: Settlements;
  /** Copies that the cues drive; by name. */
  readonly copies: readonly PlanCopy[];
  readonly articulations: readonly PlanArticulation[];
  readonly kept: readonly KeptZone[];
  readonly dropped: readonly DroppedZone[];
  /** SoundFont: kept `pbag` indices, ascending; empty elsewhere. */
  readonly presetZones: readonly number[];
}

/** A loaded instance of an instrument. */
export interface PlanCopy {
  readonly name: string;
  /** Note-ons sent to it. */
  readonly notes: number;
  readonly zonesKept: number;
  /** Zones it keeps where each copy has its own; null where all copies load the same. */
  readonly kept: readonly number[] | null;
  /** Zones that it keeps without their samples, where each copy has its own; else empty. */
  readonly muted: readonly number[];
  /** What it chose, cue by cue: one that chooses nothing may find the instrument so. */
  readonly chosen: readonly PlanChoice[];
  /** In some cue it plays before it has chosen: what it chooses elsewhere in the reel counts there. */
  readonly opensUnset: boolean;
}

/** What a copy chose in one cue with one switch, program or bank. */
export interface PlanChoice {
  /** Id. */
  readonly cue: string;
  /** The switch, by its number among the instrument's signals. */
  readonly signal: number;
  /** 1-16; null where the channels of the copy share one state. */
  readonly channel: number | null;
  readonly values: readonly number[];
}

export interface DroppedZone {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  /** Its articulations, as indices into the instrument's. */
  readonly articulations: readonly number[];
  /** What its samples take in one copy, as computed; what other zones use too counts in each. */
  readonly bytes: number;
}

export interface InstrumentBytes {
  readonly full: number;
  /** What the score reaches, before the set is closed upward to what the player can unload. */
  readonly reached: number;
  readonly kept: number;
  /** Samples whose size is not known (in ROM, or a header that can't be used): not counted. */
  readonly unknownSamples: number;
  /** Computed from sample sizes, fitted to readings of the player's display, or read off it. */
  readonly basis: 'computed' | 'fitted' | 'read';
  /** Readings behind a fitted figure, and the worst of their residuals in bytes. */
  readonly readings: number;
  readonly residual: number;
  /** Of `kept`. */
  readonly low: number;
  readonly high: number;
}

export interface PlanArticulation {
  readonly name: string;
  readonly switch: string | null;
  /** Notes that start at least one of its zones by the plain reading. */
  readonly notes: number;
  readonly keys: readonly Range[];
  readonly velocities: Range | null;
  /** How far the controllers that shape the sound go where it is played, by number. */
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
  readonly layers: readonly PlanLayer[];
  readonly zones: number;
  readonly zonesKept: number;
  /** Samples that only count once in the totals count here in each articulation that uses them. */
  readonly bytes: { readonly full: number; readonly kept: number };
}

export interface PlanLayer {
  readonly velocity: Range;
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
  readonly zones: number;
  readonly zonesKept: number;
}

/** Why a zone stays. Doubt names, `played`, or what keeps it where usage does not. */
export type Reason = 'played' | DoubtName | 'mutes' | 'linked' | 'pinned' | 'headroom' | 'grain';

export interface KeptZone {
  readonly zone: number;
  /** A stable name where the source's order may change; null elsewhere. */
  readonly key: string | null;
  readonly samples: readonly string[];
  /** Its articulations, as indices into the instrument's. */
  readonly articulations: readonly number[];
  /** What its samples take in one copy, as computed; what other zones use too counts in each. */
  readonly bytes: number;
  readonly reasons: readonly Reason[];
  /** The minimal doubt sets under which the score reaches it; `[[]]` by the plain reading alone. */
  readonly doubts: readonly (readonly DoubtName[])[];
  /** Notes that reach it, by the plain reading or through a doubt. */
  readonly notes: number;
  readonly cues: Readonly<Record<string, number>>;
  /** The first three notes that reach it, in reel order. */
  readonly witnesses: readonly Witness[];
}

export interface Witness {
  readonly cue: string;
  readonly track: number;
  readonly trackName: string | null;
  readonly tick: number;
  readonly bar: number;
  readonly beat: number;
  readonly seconds: number;
  /** `hh:mm:ss:ff` where the cue begins at a time code; else null. */
  readonly timecode: string | null;
  readonly key: number | null;
  readonly velocity: number | null;
}

export interface PlanMachine {
  readonly id: string;
  readonly budget: number | null;
  readonly bytes: {
    /** Everything loaded. */
    readonly full: number;
    /** When all that is dropped is unloaded: likely, at the least, at the most. */
    readonly kept: number;
    readonly low: number;
    readonly high: number;
  };
  /** Judged on the high figure; null without a budget. */
  readonly fits: boolean | null;
}

export interface PlanDoubt {
  readonly name: DoubtName;
  readonly settled: Settlement | null;
  /** Zones that would go if this doubt alone were settled as plain. */
  readonly zones: number;
  readonly bytes: number;
}

export interface PlanTotal {
  readonly bytes: {
    readonly full: number;
    readonly reached: number;
    readonly kept: number;
    readonly saved: number;
  };
  readonly zones: number;
  readonly zonesKept: number;
  readonly samples: number;
  readonly samplesKept: number;
}

export interface PlanAllowances {
  readonly headroom: PlanAllowance;
  /** In the order of the settings' pins: what would go without this one alone. */
  readonly pins: readonly PlanAllowance[];
}

export interface PlanAllowance {
  readonly zones: number;
  readonly bytes: number;
}

export interface PlanVersions {
  /** The cue's number, without a version. */
  readonly cue: string;
  /** Ids of its versions, the newest last. */
  readonly versions: readonly string[];
  /** What would go if only the newest counted. */
  readonly zones: number;
  readonly bytes: number;
}

/** Units that the player can unload and that fewer than `fewerThan` notes reach; never dropped by itself. */
export interface PlanRare {
  readonly fewerThan: number;
  /** By the bytes that each frees, the most first. */
  readonly units: readonly RareUnit[];
  /** What unloading all of them frees. */
  readonly bytes: number;
}

export interface RareUnit {
  readonly instrument: string;
  readonly machine: string;
  /** The copy that keeps it, where each copy has its own zones; else null. */
  readonly copy: string | null;
  /** Indices into the instrument's articulations. */
  readonly articulations: readonly number[];
  readonly zones: readonly number[];
  readonly samples: number;
  /** Notes that reach any of its zones. */
  readonly notes: number;
  readonly cues: Readonly<Record<string, number>>;
  /** The first three. */
  readonly witnesses: readonly Witness[];
  /** What its machine has less without it alone. */
  readonly bytes: number;
}

/**
 * Each cue left out in turn, a plan made of the rest and held against it; and each older version of a
 * cue held against the newer: for growing headroom.
 */
export interface PlanHeadroomCurve {
  /** Cues that were left out in turn, and pairs of versions. */
  readonly cues: number;
  readonly revisions: number;
  /** From no room to the most. */
  readonly steps: readonly HeadroomStep[];
}

export interface HeadroomStep {
  readonly headroom: Headroom;
  /** Cues and revisions that would have found all they need. */
  readonly cuesServed: number;
  readonly revisionsServed: number;
  /** Those that would not: ids of cues, and of newer versions. */
  readonly missed: readonly string[];
  /** What this headroom keeps beyond none, for the whole reel. */
  readonly zones: number;
  readonly bytes: number;
}
