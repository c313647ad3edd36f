import { parseDecimal } from './decimal.ts';
import { tidy } from './tidy.ts';

/**
 * A number as people write it: digits, a sign if need be, a decimal mark if need be. No exponents,
 * no hexadecimals, no grouped thousands; null for anything else.
 *
 * @param decimalComma the comma is the decimal mark, as in tables whose cells `;` or TAB divide;
 *   the point is understood too, except in `48.000`, which may mean 48 or 48 thousand: null
 * @example parseNumber('-12') // -12
 * @example parseNumber('0,9', true) // 0.9
 */
export const parseNumber = (text: string, decimalComma = false): number | null => {
  const tidied = tidy(text);
  const negative = tidied.startsWith('-');
  const digits = negative || tidied.startsWith('+') ? tidied.slice(1) : tidied;
  const decimal = parseDecimal(digits, decimalComma);
  if (decimal === null) return null;
  const value = Number(`${decimal.whole}.${decimal.fraction}`);
  // Not -0: it would show as 0 and yet differ from it.
  return negative && value !== 0 ? -value : value;
};
