import type { Finding } from '../terms/finding.ts';

/** Smaller instruments, written and checked: the result of `trim`. Bytes are whole numbers. */
export interface Trim {
  readonly schema: 'keepset/trim@1';
  /** True when nothing was written. */
  readonly dryRun: boolean;
  /** sha256 of the keep file. */
  readonly keep: { readonly sha256: string };
  /** What the user accepted although usage is not wholly known. */
  readonly accepted: TrimAccepted;
  readonly instruments: readonly TrimmedInstrument[];
  /** All files in the folder but the list itself, by path. */
  readonly files: readonly TrimFile[];
  readonly total: TrimTotal;
  /** What was read back and played; null in a dry run. */
  readonly proof: TrimProof | null;
  readonly findings: readonly Finding[];
}

export interface TrimFile {
  readonly path: string;
  readonly bytes: number;
  /** Of a text that was made; null where sound was copied. */
  readonly sha256: string | null;
}

export interface TrimAccepted {
  /** Ids of damaged cues, and of cues that look incomplete. */
  readonly damage: readonly string[];
  readonly partial: readonly string[];
  /** Tracks that no rule takes. */
  readonly unmapped: boolean;
}

export interface TrimmedInstrument {
  readonly id: string;
  readonly machine: string;
  /** As the template has it, with `#bank:program` for one preset. */
  readonly source: string;
  /**
   * trimmed: a smaller one is written; unplayed: nothing of it stays, so none is; unwritable: its files
   * can't be rewritten (a zone table).
   */
  readonly outcome: 'trimmed' | 'unplayed' | 'unwritable';
  /** Its definition in the folder; null unless trimmed. */
  readonly path: string | null;
  readonly zones: BeforeAfter;
  readonly samples: BeforeAfter;
  /** Bytes of its files; those that instruments share count in each, and once in the total. */
  readonly disk: BeforeAfter;
  /** Bytes in memory with all of it loaded, by the template's player. */
  readonly memory: BeforeAfter;
  /** Zones that only hold a place: switches stay switches, presets stay presets. */
  readonly places: number;
}

export interface BeforeAfter {
  readonly before: number;
  readonly after: number;
}

export interface TrimTotal {
  readonly zones: BeforeAfter;
  readonly samples: BeforeAfter;
  readonly disk: BeforeAfter;
  readonly memory: BeforeAfter;
}

/** The score played through what was written. */
export interface TrimProof {
  readonly cues: number;
  /** Note-ons of them that are sent to what was written. */
  readonly notes: number;
  /** Zones that notes reach in the full instruments, each found again with the same notes. */
  readonly zones: number;
}
