import type { DoubtName } from '../terms/doubt.ts';
import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';

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
  readonly total: PlanTotal;
  readonly findings: readonly Finding[];
}

/** What the user chose; nothing else may change a plan. */
export interface PlanSettings {
  readonly instrument: string | null;
  readonly settle: Readonly<Partial<Record<DoubtName, Settlement>>>;
  /** Cues left out by the user's word. */
  readonly without: readonly string[];
}

/** How a doubt was answered: as the plain reading, or by accepting what it costs. */
export type Settlement = 'plain' | 'accept';

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
  readonly articulations: readonly PlanArticulation[];
  readonly kept: readonly KeptZone[];
  readonly dropped: readonly { readonly zone: number; readonly samples: readonly string[] }[];
  /** SoundFont: kept `pbag` indices, ascending; empty elsewhere. */
  readonly presetZones: readonly number[];
}

export interface InstrumentBytes {
  readonly full: number;
  /** What the score reaches, before the set is closed upward to what the player can unload. */
  readonly reached: number;
  readonly kept: number;
  /** Samples whose size is not known (in ROM, or a header that can't be used): not counted. */
  readonly unknownSamples: number;
  readonly basis: 'computed';
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
