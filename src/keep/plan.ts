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
  readonly state: 'read' | 'damaged' | 'unreadable';
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
}

export interface DroppedZone {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
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
  readonly key: number | null;
  readonly velocity: number | null;
}

export interface PlanMachine {
  readonly id: string;
  readonly budget: number | null;
  readonly bytes: {
    readonly full: number;
    readonly kept: number;
    readonly low: number;
    readonly high: number;
  };
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
