import { InputError } from '../../terms/errors.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { writeActionKey } from './action-key.ts';
import type { Ledger, LedgerEntry } from './ledger/ledger.ts';
import { LoadedZones, Targets } from './loaded-zones.ts';
import type { SlottedInstrument } from './slots.ts';

/** What is loaded by a record. */
export interface DoneZones {
  readonly loaded: LoadedZones;
  /**
   * `worklist-ledger-left`: actions that were never done and belong to something else;
   * `worklist-copy-gone`: done to a copy that is not there.
   */
  readonly findings: readonly Finding[];
}

/** Errors that are listed. */
const mostErrors = 100;

/**
 * Everything, changed by what is done, in the order of numbers.
 *
 * @param proves a proof rests on it: a copy that is gone may be there under another name
 * @throws {InputError} `worklist-ledger-stale` where something was done to an instrument that is not there,
 *   or to zones of another definition
 */
export const doneZones = (
  instruments: readonly SlottedInstrument[],
  { entries }: Ledger,
  file: string | null,
  proves = false,
): DoneZones => {
  const targets = new Targets(instruments);
  const loaded = new LoadedZones(instruments);
  const errors: Finding[] = [];
  const findings: Finding[] = [];
  for (const entry of [...entries].sort((a, b) => a.number - b.number)) {
    const { key, state, number, at } = entry;
    const target = targets.find(key);
    if (typeof target !== 'string') {
      if (state !== 'done') continue;
      for (const slot of target.slots) loaded.set(slot, target.zones, key.does);
      continue;
    }
    const args = { number, instrument: key.instrument, copy: key.copy, reason: target };
    if (state === 'done' && target === 'copy-gone' && !proves) {
      const { instrument, copy } = key;
      findings.push(
        finding('warning', 'worklist-copy-gone', file, { number, instrument, copy }, at),
      );
    } else if (state === 'done')
      errors.push(finding('error', 'worklist-ledger-stale', file, args, at));
    else if (state === 'open') {
      findings.push(finding('warning', 'worklist-ledger-left', file, args, at));
    }
  }
  const [first, ...others] = errors;
  if (first !== undefined) throw new InputError(first, others.slice(0, mostErrors - 1));
  return { loaded, findings };
};

/** A done action, as it is listed. */
export const recordedAction = ({ number, key, seen, note }: LedgerEntry) => ({
  number,
  key: writeActionKey(key),
  seen,
  note,
});
