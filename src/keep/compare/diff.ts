import type { Finding } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';

/**
 * What lies between two keep files: the result of `diff`. Loading and unloading are seen from the
 * first to the second. Only zones that stay with their samples count: what is there to stop others
 * (reason `mutes`) has nothing to load. Bytes are those of `memory/`, null where it takes the
 * instruments to tell and they are not at hand.
 */
export interface Diff {
  readonly schema: 'keepset/diff@1';
  readonly from: DiffFile;
  readonly to: DiffFile;
  /** Every instrument of either file, in the order of the second, then what is only in the first. */
  readonly instruments: readonly DiffInstrument[];
  /** Every machine of either file, in the same order. */
  readonly machines: readonly DiffMachine[];
  /** The machines added up. */
  readonly total: DiffAmounts;
  readonly findings: readonly Finding[];
}

export interface DiffFile {
  /** As the user named it. */
  readonly path: string;
  readonly sha256: string;
  /** Ids. */
  readonly cues: readonly string[];
}

export interface DiffAmounts {
  readonly load: Amount;
  readonly unload: Amount;
  readonly unchanged: Amount;
}

/**
 * Zones count in each copy that has its own. So do samples; where a player shares them, those of one
 * definition on one machine count once. What stays is what zones that stay use: a sample that goes
 * with one zone and comes with another is unloaded and loaded.
 */
export interface Amount {
  readonly zones: number;
  readonly samples: number;
  /** `load` less `unload` is the difference of the two kept figures; null: not known. */
  readonly bytes: number | null;
}

export interface DiffInstrument extends DiffAmounts {
  readonly id: string;
  /** As the second file writes it; the first where it is only there. */
  readonly source: string;
  /** Null where it is in the second file only, or in the first only. */
  readonly machine: { readonly from: string | null; readonly to: string | null };
  /** `changed`: two definitions; their zones can't be told apart, so all is unloaded and loaded. */
  readonly definition: 'same' | 'changed' | 'added' | 'removed';
  /** Names of the copies that are loaded by one of the files only. */
  readonly copiesLoaded: readonly string[];
  readonly copiesUnloaded: readonly string[];
  /** One for all copies, or one for each copy of either file; those with nothing to do are left out. */
  readonly copies: readonly DiffCopy[];
}

export interface DiffCopy {
  /** Null: all copies alike, or the one that stays although no cue drives any. */
  readonly name: string | null;
  /** In the order of the instrument. */
  readonly load: readonly DiffZone[];
  readonly unload: readonly DiffZone[];
}

export interface DiffZone {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  /** Names. */
  readonly articulations: readonly string[];
  /** Where it lies; null where its instrument is not at hand. */
  readonly place: DiffPlace | null;
}

/** Where a zone lies in its instrument, over all articulations that start it. */
export interface DiffPlace {
  readonly keys: readonly Range[];
  readonly velocities: Range | null;
  /** Controllers that choose between layers, where one of them chooses this zone. */
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
}

export interface DiffMachine extends DiffAmounts {
  readonly id: string;
  /** Of the second file; of the first where it is only there. */
  readonly budget: number | null;
  readonly kept: { readonly from: number; readonly to: number };
  /** What the second file takes at the least and most; 0 where the machine is not in it. */
  readonly low: number;
  readonly high: number;
  /** By the second file; null without a budget, or where it is not in that file. */
  readonly fits: boolean | null;
}
