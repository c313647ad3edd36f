import { shown } from './cell-text.ts';
import { parseNames } from './names-cell.ts';
import type { TableRow } from './table-row.ts';

const aNumber = /^\d+(?:[.,]\d+)?$/u;

/** Signs that people divide a list by elsewhere, where a table has `|`. */
const otherDividers = /[,;]/u;

/**
 * The microphones of a row; `[null]` where it names none. Read as one name, a list divided by another
 * sign would count once, and the number of microphones as a name would too: the memory of a row would
 * be half of what it is, or less, and nothing would show it.
 *
 * Faults: `table-cell`, `table-microphones-divided`, `table-microphones-counted`.
 */
export const readMicrophones = (row: TableRow): readonly (string | null)[] => {
  const text = row.text('microphone');
  if (aNumber.test(text)) {
    row.fault('table-microphones-counted', 'microphone', { value: shown(text) });
    return [null];
  }
  const names = text
    .split(/[|,;]/u)
    .map((name) => name.trim())
    .filter((name) => name !== '');
  if (otherDividers.test(text) && names.length > 0) {
    const args = { value: shown(text), instead: shown(names.join('|')) };
    row.fault('table-microphones-divided', 'microphone', args);
    return [null];
  }
  return row.read<readonly (string | null)[]>('microphone', [null], parseNames);
};
