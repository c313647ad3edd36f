import { inputError } from '../../terms/errors.ts';
import { writeActionKey } from './action-key.ts';
import type { Ledger, LedgerEntry } from './ledger/ledger.ts';
import { largestNumber } from './ledger/ledger.ts';
import { laterContrary } from './ledger/tick.ts';
import type { Step } from './steps.ts';

/** Steps with their numbers, and the record that holds these. */
export interface Numbered {
  /** In the order of the steps. */
  readonly entries: readonly LedgerEntry[];
  readonly ledger: Ledger;
}

/**
 * Gives each step its number: the one that it has in the record, or the next. What the record has open and
 * nobody wants any more becomes void. A step does not take up a number again where a later one did the
 * contrary meanwhile: what is done counts in the order of numbers.
 *
 * @throws {InputError} `ledger-numbers-spent`
 */
export const number = (steps: readonly Step[], ledger: Ledger, file: string | null): Numbered => {
  const known = new Map<string, LedgerEntry>();
  const done = ledger.entries.filter(({ state }) => state === 'done');
  for (const entry of ledger.entries) {
    const text = writeActionKey(entry.key);
    const other = known.get(text);
    if (entry.state !== 'done' && (other === undefined || entry.number < other.number)) {
      known.set(text, entry);
    }
  }
  let last = ledger.entries.reduce((most, one) => Math.max(most, one.number), 0);
  const wanted = new Set<LedgerEntry>();
  const added: LedgerEntry[] = [];
  const entries = steps.map(({ key }): LedgerEntry => {
    const before = known.get(writeActionKey(key));
    if (before !== undefined && laterContrary(before, done) === null) {
      wanted.add(before);
      return { ...before, state: 'open' };
    }
    if (last >= largestNumber) throw inputError('ledger-numbers-spent', file, {});
    const fresh = { number: ++last, key, state: 'open' as const, seen: null, note: '' };
    const entry: LedgerEntry = { ...fresh, cells: [], at: null };
    added.push(entry);
    return entry;
  });
  const kept = ledger.entries.map((entry): LedgerEntry => {
    if (entry.state === 'done') return entry;
    return { ...entry, state: wanted.has(entry) ? 'open' : 'void' };
  });
  return { entries, ledger: { ...ledger, entries: [...kept, ...added] } };
};
