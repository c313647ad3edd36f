import type { Amount, DiffAmounts } from '../keep/compare/diff.ts';
import { formatBytes, plural } from './format.ts';

/** An amount with its bytes, where they are known. @example amount(…) // '41 zones (86.2 MiB)' */
const amount = ({ zones, bytes }: Amount): string =>
  bytes === null
    ? plural(zones, 'zone')
    : zones === 0
      ? formatBytes(bytes)
      : `${plural(zones, 'zone')} (${formatBytes(bytes)})`;

/** There is something to do: zones, or bytes that copies take by themselves. */
const isSome = ({ zones, bytes }: Amount): boolean => zones > 0 || (bytes ?? 0) > 0;

/** What there is to do, without a stop at the end; null where there is nothing. */
export const work = ({ load, unload }: Pick<DiffAmounts, 'load' | 'unload'>): string | null => {
  if (isSome(load)) {
    return `Load ${amount(load)}${isSome(unload) ? ` and unload ${amount(unload)}` : ''}`;
  }
  return isSome(unload) ? `Unload ${amount(unload)}` : null;
};
