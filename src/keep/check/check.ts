import type { DoubtName } from '../../terms/doubt.ts';
import type { Finding, FindingCode } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';
import type { Settlement } from '../../terms/settlement.ts';
import type { PlanCue, Witness } from '../plan.ts';

/**
 * What cues need and a keep file does not hold: the result of `check`. Bytes are whole numbers; bars
 * and beats count from 1, tracks from 0; keys and velocities as they reach the instrument.
 */
export interface Check {
  readonly schema: 'keepset/check@1';
  /** `missing`: something that was dropped is asked for; `not-proved`: nothing was found, but see `open`. */
  readonly verdict: 'proved' | 'missing' | 'not-proved';
  readonly keep: { readonly path: string; readonly sha256: string };
  /** The record of a worklist: what is loaded by it was checked; null: what the keep file keeps. */
  readonly loaded: CheckedLoaded | null;
  readonly proof: Proof;
  /** Codes of the findings that stand against a proof, each once. */
  readonly open: readonly FindingCode[];
  /** By instrument in the order of the keep file, then by zone. */
  readonly misses: readonly Miss[];
  /** Every machine of the keep file, with all misses loaded again. */
  readonly machines: readonly CheckMachine[];
  readonly total: {
    readonly misses: number;
    /** Notes that ask for a missing zone by the plain reading; one that asks for three counts once. */
    readonly notes: number;
    /** Further notes that do so only through a doubt. */
    readonly doubtfulNotes: number;
    /** What loading all of it again takes, over all machines. */
    readonly bytes: number;
  };
  readonly findings: readonly Finding[];
}

/** How far a worklist has been done. */
export interface CheckedLoaded {
  /** As the user named it. */
  readonly path: string;
  /** Actions that are done, and those that are not done and still wanted when they were listed. */
  readonly done: number;
  readonly open: number;
}

/** What the verdict covers. */
export interface Proof {
  readonly cues: readonly CheckedCue[];
  /** Ids of cues that the keep file was made from and that were not checked, in no version. */
  readonly absent: readonly string[];
  /** Ids of cues that were named and left out: on the user's word, or for a newer version. */
  readonly leftOut: readonly string[];
  /** Ids of checked cues that are whole by the user's word, whatever they look like. */
  readonly accepted: readonly string[];
  readonly notes: number;
  readonly instruments: readonly CheckedInstrument[];
  /** Whether routes and players are those of the plan; `none`: one instrument plays all. */
  readonly template: 'same' | 'changed' | 'none';
  readonly settled: readonly {
    readonly doubt: DoubtName;
    readonly answer: Settlement;
    /** Where it holds. */
    readonly instruments: readonly string[];
  }[];
}

export interface CheckedCue extends Omit<PlanCue, 'tracks'> {
  /** Against the keep file: the same files, other ones, or a cue it does not know. */
  readonly change: 'same' | 'changed' | 'new';
}

export interface CheckedInstrument {
  readonly id: string;
  readonly sha256: string;
  /** `changed`: its definition is not that of the plan, and was not compared; `added`: not in the plan. */
  readonly state: 'same' | 'changed' | 'added';
}

/** A zone that is asked for and was dropped. */
export interface Miss {
  readonly instrument: string;
  readonly machine: string;
  /** Where each copy keeps zones of its own; else null. */
  readonly copy: string | null;
  /** The number the source knows it by, and its stable name where there is one. */
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  /** Names of its articulations. */
  readonly articulations: readonly string[];
  /** It is only needed to stop others, without its samples. */
  readonly silent: boolean;
  /** The zone is loaded for others; the articulation (preset) that asks for it here was dropped. */
  readonly isPreset: boolean;
  /** The smallest sets of doubts under which it is asked for; `[[]]`: by the plain reading. */
  readonly doubts: readonly (readonly DoubtName[])[];
  /** Notes that ask for it by the plain reading; where none do, those that do through a doubt. */
  readonly notes: number;
  /** Further notes that ask for it only through a doubt. */
  readonly doubtfulNotes: number;
  readonly cues: Readonly<Record<string, number>>;
  /** Keys and velocities of the notes that ask for it; no velocities where a controller does. */
  readonly keys: readonly Range[];
  readonly velocities: Range | null;
  /** The first three. */
  readonly places: readonly Witness[];
  /** Where to record it as audio instead. */
  readonly bars: readonly MissBars[];
  /**
   * Misses of an instrument with one number come back together: its player can't load them apart.
   * From 0 within the instrument.
   */
  readonly unit: number;
  /** What loading its unit again takes on its machine. */
  readonly bytes: number;
  /** Whether its machine holds that, on the high figure; null without a budget. */
  readonly fits: boolean | null;
  /** Notes or settings with which the kept zones would do; reloading and recording are always there. */
  readonly ways: readonly WayOut[];
}

/** A track of a cue and the bars in which it asks for what is missing. */
export interface MissBars {
  readonly cue: string;
  readonly track: number;
  readonly trackName: string | null;
  /** From 1, ascending, apart. */
  readonly bars: readonly Range[];
}

/**
 * What could be played instead; advice, no cue is changed. With it, nothing that the miss's notes ask
 * for is missing any more.
 */
export type WayOut =
  /** Every note of the copy with this key and velocity gets another velocity. */
  | { readonly kind: 'velocity'; readonly changes: readonly VelocityChange[] }
  /** The controller stays at `to` or below (`at-most`), or above (`at-least`), all through the cues. */
  | {
      readonly kind: 'controller';
      readonly number: number;
      readonly limit: 'at-most' | 'at-least';
      /** The furthest it goes now. */
      readonly from: number;
      readonly to: number;
    }
  /** The same keys in another articulation; `switch` chooses it, in words of the format. */
  | {
      readonly kind: 'articulation';
      readonly articulation: string;
      readonly switch: string | null;
    };

export interface VelocityChange {
  readonly key: number;
  readonly from: number;
  readonly to: number;
  readonly notes: number;
}

export interface CheckMachine {
  readonly id: string;
  readonly budget: number | null;
  readonly bytes: {
    readonly kept: number;
    /** With all misses loaded again. */
    readonly reloaded: number;
    readonly low: number;
    readonly high: number;
  };
  readonly fits: boolean | null;
}
