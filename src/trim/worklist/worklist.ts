import type { Grain } from '../../template/player.ts';
import type { Finding } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';

/** The steps for a person, by machine: the result of `worklist` (design, section 9). Bytes are whole. */
export interface Worklist {
  readonly schema: 'keepset/worklist@1';
  /** As the user named it. */
  readonly keep: { readonly path: string; readonly sha256: string };
  /** The record of numbers and ticks; null: none was named, and the numbers hold for this list alone. */
  readonly ledger: { readonly path: string; readonly isNew: boolean } | null;
  /** In template order. */
  readonly machines: readonly WorklistMachine[];
  /** Actions of the record that are done. */
  readonly done: readonly RecordedAction[];
  /** Actions of the record that were never done and are no longer wanted. */
  readonly void: readonly RecordedAction[];
  readonly findings: readonly Finding[];
}

export interface WorklistMachine {
  readonly id: string;
  readonly budget: number | null;
  readonly bytes: {
    /** With everything loaded. */
    readonly full: number;
    /** As things are: everything, less what is done. */
    readonly now: number;
    /** When every action is done. */
    readonly after: number;
  };
  /** Open ones: what is to be loaded first, then what is to be unloaded; in that order they are done. */
  readonly actions: readonly WorklistAction[];
}

export interface WorklistAction {
  readonly number: number;
  /** Names the action across plans: what it does, to which zones of what. */
  readonly key: string;
  readonly does: 'load' | 'unload';
  readonly instrument: string;
  /** null: all copies load the same, or it is about the spare ones. */
  readonly copy: string | null;
  /**
   * How many copies it takes away that no cue plays and no plan names (those of tracks that are audio
   * already); 0: it is about the others. The whole of each then.
   */
  readonly spareCopies: number;
  readonly unit: WorklistUnit;
  /** Ids of the zones it loads or unloads, ascending. */
  readonly zones: readonly number[];
  /** Samples that are no longer loaded, or are loaded then. */
  readonly samples: number;
  /** Those of them whose size nobody knows; they count as nothing in `frees` and `total`. */
  readonly unknownSamples: number;
  /** What stays of its unit; null: nothing. */
  readonly keeps: KeptPart | null;
  /** What the machine has less then, when the lines above are done; below 0: more. */
  readonly frees: number;
  /** What the machine has then. */
  readonly total: number;
  /** What a person saw on the player's display, from the record. */
  readonly seen: number | null;
  readonly note: string;
}

/** What one line is about: the least that the player lets go, or an articulation where that is a sample. */
export interface WorklistUnit {
  /** What the player lets go; `instrument` where nothing of the copy, or of all copies, stays. */
  readonly grain: Grain;
  /** Names of its articulations; none: zones that nothing starts. */
  readonly articulations: readonly string[];
  /** Where the grain is a layer; else null. */
  readonly layer: KeptLayer | null;
  readonly microphone: string | null;
}

export interface KeptPart {
  readonly keys: readonly Range[];
  readonly layers: readonly KeptLayer[];
}

export interface KeptLayer {
  readonly velocity: Range;
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
}

/** An action of the record that is not to be done now. */
export interface RecordedAction {
  readonly number: number;
  readonly key: string;
  readonly seen: number | null;
  readonly note: string;
}
