import { printable } from '../../terms/printable.ts';
import { formatCount } from '../format.ts';

/** Names in a row, and how many more there are. */
export const listedNames = (names: readonly string[], more: number): string => {
  const shown = names.map(printable).join(', ');
  return more === 0 ? shown : `${shown} and ${formatCount(more)} more`;
};
