import { inputError } from '../../../terms/errors.ts';
import { toRanges } from '../../../terms/range.ts';
import { areContrary } from '../action-key.ts';
import type { Ledger, LedgerEntry } from './ledger.ts';

/** Numbers of actions that a person has done, and of those that are not done after all. */
export interface Ticks {
  readonly done: readonly number[];
  readonly undo: readonly number[];
}

const rangesOf = (numbers: Iterable<number>): readonly string[] =>
  toRanges(numbers).map(([lo, hi]) => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`));

/**
 * Ticks actions of a record. One that is no longer wanted may be ticked as well: it may have been done
 * before the plan was made again.
 *
 * @throws {InputError} `ledger-number-unknown`; `ledger-tick-late` where a later action that is done does
 *   the contrary: what is done counts in the order of numbers
 */
export const tick = (ledger: Ledger, { done, undo }: Ticks, file: string | null): Ledger => {
  const numbers = new Set(ledger.entries.map(({ number }) => number));
  const unknown = [...done, ...undo].filter((number) => !numbers.has(number));
  if (unknown.length > 0) {
    const args = { numbers: rangesOf(unknown), there: rangesOf(numbers) };
    throw inputError('ledger-number-unknown', file, args);
  }
  const [ticked, unticked] = [new Set(done), new Set(undo)];
  const entries = ledger.entries.map((entry): LedgerEntry => {
    if (unticked.has(entry.number)) {
      return entry.state === 'done' ? { ...entry, state: 'open' } : entry;
    }
    return ticked.has(entry.number) ? { ...entry, state: 'done' } : entry;
  });
  const before = new Set(
    ledger.entries.flatMap(({ number, state }) => (state === 'done' ? [number] : [])),
  );
  for (const entry of entries) {
    if (entry.state !== 'done' || before.has(entry.number)) continue;
    const later = laterContrary(
      entry,
      entries.filter(({ number }) => before.has(number)),
    );
    if (later === null) continue;
    throw inputError('ledger-tick-late', file, { number: entry.number, later: later.number });
  }
  return { ...ledger, entries };
};

/** A later action that is done and does the contrary to some of the same. */
export const laterContrary = (
  { number, key }: Pick<LedgerEntry, 'number' | 'key'>,
  entries: readonly LedgerEntry[],
): LedgerEntry | null =>
  entries.find((one) => one.state === 'done' && one.number > number && areContrary(one.key, key)) ??
  null;
