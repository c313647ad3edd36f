/** What `memory` may find. */
export interface MemoryFindings {
  /** The reel, or a group that is loaded at once, does not fit. `bytes`: the high figure. */
  readonly 'memory-over-budget': {
    readonly machine: string;
    readonly high: number;
    readonly budget: number;
  };
  /** Cues that do not fit when they are loaded by themselves. `high`: of the one that needs most. */
  readonly 'memory-cue-alone': {
    readonly cues: readonly string[];
    readonly machine: string;
    readonly high: number;
    readonly budget: number;
  };
  /** What its cues need is not what the keep file keeps: it was edited, or made by another version. */
  readonly 'memory-keep-differs': {
    readonly instrument: string;
    /** Zones that the cues need and the file lets go; that it keeps and nothing needs. */
    readonly missing: number;
    readonly idle: number;
  };
  /** The template, an instrument or a cue is not that of the keep file. */
  readonly 'memory-template-changed': Record<string, never>;
  readonly 'memory-instrument-changed': { readonly instrument: string };
  readonly 'memory-cue-changed': { readonly cue: string };
  /** Some players have no load-rate: the time of a change is not known. */
  readonly 'memory-no-load-rate': { readonly players: readonly string[] };
  /** A reading of a player's display is so far from the estimate that one of them is another thing. */
  readonly 'loaded-far-off': {
    readonly instrument: string;
    readonly shown: number;
    readonly estimate: number;
  };
  /** Faults of the table of readings. */
  /** `problem`: why it is no table, as reading cells names it. */
  readonly 'loaded-unreadable': { readonly problem: string };
  readonly 'loaded-empty': Record<string, never>;
  readonly 'loaded-column-missing': { readonly column: string; readonly near: string | null };
  readonly 'loaded-column-unknown': { readonly column: string; readonly near: string | null };
  readonly 'loaded-column-twice': { readonly column: string };
  readonly 'loaded-row-long': { readonly cells: number; readonly columns: number };
  readonly 'loaded-instrument': { readonly instrument: string; readonly near: string | null };
  readonly 'loaded-copy': {
    readonly instrument: string;
    readonly copy: string;
    readonly near: string | null;
  };
  readonly 'loaded-amount': { readonly text: string };
  readonly 'loaded-twice': { readonly instrument: string; readonly copy: string | null };
  /** Errors beyond those that are listed. */
  readonly 'loaded-more-errors': { readonly more: number };
  /** Nothing of it is needed: what was read is not what stays. */
  readonly 'loaded-unneeded': { readonly instrument: string; readonly copy: string | null };
}
