/** An action of the record that does not belong to the template at hand. */
interface StaleAction {
  readonly number: number;
  readonly instrument: string;
  readonly copy: string | null;
  /** The instrument is not there, its zones are others by now, or its copies are no longer told apart. */
  readonly reason: 'instrument' | 'zones' | 'copies' | 'copy-gone';
}

/** Faults of the record, as a person's spreadsheet may have saved it. */
export interface LedgerFaults {
  /** `problem`: why it is no table, as reading cells names it. */
  readonly 'ledger-unreadable': { readonly problem: string };
  readonly 'ledger-empty': Record<string, never>;
  readonly 'ledger-column-missing': { readonly column: string; readonly near: string | null };
  readonly 'ledger-column-twice': { readonly column: string };
  readonly 'ledger-row-long': { readonly cells: number; readonly columns: number };
  readonly 'ledger-number': { readonly text: string };
  /** `line`: of the other one. */
  readonly 'ledger-number-twice': { readonly number: number; readonly line: number };
  readonly 'ledger-action': { readonly text: string };
  readonly 'ledger-done': { readonly text: string };
  readonly 'ledger-bytes': { readonly text: string };
  /** Errors beyond those that are listed. */
  readonly 'ledger-more-errors': { readonly more: number };
  /** Numbers to tick that the record does not have, and those it has, as `3-7`. */
  readonly 'ledger-number-unknown': {
    readonly numbers: readonly string[];
    readonly there: readonly string[];
  };
  /** A later action that is done does the contrary of one that is to be ticked. */
  readonly 'ledger-tick-late': { readonly number: number; readonly later: number };
  /** There is no number left. */
  readonly 'ledger-numbers-spent': Record<string, never>;
}

/** What `worklist` and its record of numbers and ticks may find. */
export interface WorklistFindings extends LedgerFaults {
  /** A step that is done is about a copy that no plan names now; null: about copies that no cue plays. */
  'worklist-copy-gone': {
    readonly number: number;
    readonly instrument: string;
    readonly copy: string | null;
  };
  /** The plan can't vouch for these cues, or for tracks without an instrument. */
  readonly 'worklist-not-proved': { readonly cues: readonly string[]; readonly unmapped: number };
  /** The template, an instrument or cues are not those of the keep file. */
  readonly 'worklist-template-changed': Record<string, never>;
  readonly 'worklist-instrument-changed': { readonly instrument: string };
  readonly 'worklist-cues-changed': { readonly cues: readonly string[] };
  /** Something was done to what is not there. */
  readonly 'worklist-ledger-stale': StaleAction;
  /** It was not done, and is left. */
  readonly 'worklist-ledger-left': StaleAction;
  /** Zones that stop others stay with their samples: a person can't load them without. */
  readonly 'worklist-mutes': {
    readonly machine: string;
    readonly zones: number;
    readonly bytes: number;
  };
}
