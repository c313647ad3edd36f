import { parseNumber } from '../../notation/number.ts';
import { listed } from './cell-text.ts';

/** The most takes that alternate on one key. */
const mostTakes = 1_000;

/**
 * The takes a row stands for, from 1: `4` is four of them, `1|2|3` are those, `2/4` is the second of
 * four. Null for what is none of these, and for a take beyond their number, which never sounds.
 */
export const parseTakes = (text: string): readonly number[] | null => {
  const parts = listed(text);
  const [only] = parts;
  if (parts.length === 1 && only !== undefined && !only.includes('/')) {
    const count = take(only);
    return count === null ? null : Array.from({ length: count }, (_, i) => i + 1);
  }
  const takes: number[] = [];
  for (const part of parts) {
    const [position = '', of = null, ...rest] = part.split('/');
    const number = take(position.trim());
    const most = of === null ? mostTakes : take(of.trim());
    if (number === null || most === null || number > most || rest.length > 0) return null;
    takes.push(number);
  }
  return takes;
};

const take = (text: string): number | null => {
  const value = parseNumber(text);
  return value !== null && Number.isInteger(value) && value >= 1 && value <= mostTakes
    ? value
    : null;
};
