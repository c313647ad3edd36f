import type { Finding } from '../../terms/finding.ts';

/**
 * What lies between two keep files: the result of `diff`. Loading and unloading are seen from the
 * first to the second. Bytes are those of `memory/`, null where instruments are not at hand.
 */
export interface Diff {
  readonly schema: 'keepset/diff@1';
  readonly from: DiffFile;
  readonly to: DiffFile;
  /** Every instrument of either file, in the order of the second, then what is only in the first. */
  readonly instruments: readonly DiffInstrument[];
  /** Every machine of either file. */
  readonly machines: readonly DiffMachine[];
  readonly total: DiffAmounts;
  readonly findings: readonly Finding[];
}

export interface DiffFile {
  readonly path: string;
  readonly sha256: string;
  readonly cues: readonly string[];
}

export interface DiffAmounts {
  readonly load: Amount;
  readonly unload: Amount;
  readonly unchanged: Amount;
}

export interface Amount {
  readonly zones: number;
  readonly samples: number;
  /** `load` less `unload` is the difference of the two kept figures; null: not known. */
  readonly bytes: number | null;
}

export interface DiffInstrument extends DiffAmounts {
  readonly id: string;
  /** Null where it is in the second file only, or in the first only. */
  readonly machine: { readonly from: string | null; readonly to: string | null };
  /** `changed`: two definitions; their zones can't be told apart, so all is unloaded and loaded. */
  readonly definition: 'same' | 'changed' | 'added' | 'removed';
  /** One for all copies, or one for each copy of either file. */
  readonly copies: readonly DiffCopy[];
}

export interface DiffCopy {
  /** Null: all copies alike. */
  readonly name: string | null;
  readonly load: readonly DiffZone[];
  readonly unload: readonly DiffZone[];
}

export interface DiffZone {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  /** Names. */
  readonly articulations: readonly string[];
}

export interface DiffMachine extends DiffAmounts {
  readonly id: string;
  /** Of the second file; of the first where it is only there. */
  readonly budget: number | null;
  readonly kept: { readonly from: number; readonly to: number };
  readonly fits: boolean | null;
}
