import type { Delimiter } from '../../../notation/csv-delimiter.ts';
import type { Place } from '../../../terms/finding.ts';
import type { ActionKey } from '../action-key.ts';

export const ledgerColumns = ['number', 'action', 'done', 'bytes', 'note'] as const;

export type LedgerColumn = (typeof ledgerColumns)[number];

/** `void`: it was never done and is no longer wanted; its number is not given to another. */
export type ActionState = 'open' | 'done' | 'void';

/** As the record has it where nobody wrote anything else. */
export const stateWords: Readonly<Record<ActionState, string>> = {
  open: '',
  done: 'yes',
  void: 'void',
};

/** An action of the record. */
export interface LedgerEntry {
  readonly number: number;
  readonly key: ActionKey;
  readonly state: ActionState;
  /** Bytes that a person saw on the player's display. */
  readonly seen: number | null;
  readonly note: string;
  /** Its row as a person wrote it; none for one that is new. */
  readonly cells: readonly string[];
  /** Where it stands; null for one that is new. */
  readonly at: Place | null;
}

/** The record of a worklist: numbers, ticks, and what a person wrote beside them. */
export interface Ledger {
  readonly delimiter: Delimiter;
  /** As they are written, in the order of the file. */
  readonly headings: readonly string[];
  /** Which of the headings are the record's own. */
  readonly places: ReadonlyMap<LedgerColumn, number>;
  /** In the order of the file. */
  readonly entries: readonly LedgerEntry[];
}

/** A record without an action. */
export const emptyLedger: Ledger = {
  delimiter: ',',
  headings: ledgerColumns,
  places: new Map(ledgerColumns.map((column, i) => [column, i])),
  entries: [],
};

/** How many actions are done, and how many are open: those that are void are neither. */
export const ledgerProgress = ({
  entries,
}: Ledger): { readonly done: number; readonly open: number } => ({
  done: entries.filter(({ state }) => state === 'done').length,
  open: entries.filter(({ state }) => state === 'open').length,
});

/** Numbers go up to here. */
export const largestNumber = 999_999_999;

const states: Readonly<Record<string, ActionState>> = {
  ...{ yes: 'done', x: 'done', true: 'done', '1': 'done', done: 'done' },
  ...{ '': 'open', no: 'open', false: 'open', '0': 'open' },
  void: 'void',
};

/** @param text folded @returns null for what is neither yes nor no */
export const stateNamed = (text: string): ActionState | null =>
  Object.hasOwn(states, text) ? states[text]! : null;
