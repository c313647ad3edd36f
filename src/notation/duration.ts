import { parseDecimal } from './decimal.ts';
import { tidy } from './tidy.ts';

/** Each unit's power of ten in seconds. */
const exponents: Readonly<Record<string, number>> = { ms: -3, s: 0 };

const duration = /^([\d.,]{1,50}) ?(ms|s)$/u;

/**
 * A length of time with its unit, ms or s, in any case; only `0` needs none.
 *
 * @returns seconds, not negative; null when it cannot be read
 * @example parseSeconds('60 ms') // 0.06
 */
export const parseSeconds = (text: string, decimalComma = false): number | null => {
  const tidied = tidy(text).toLowerCase();
  if (tidied === '0') return 0;
  const [, figure = '', unit = ''] = duration.exec(tidied) ?? [];
  const decimal = parseDecimal(figure, decimalComma);
  if (decimal === null) return null;
  // The shift is in the text: a division afterwards would round a second time.
  return Number(`${decimal.whole}.${decimal.fraction}e${exponents[unit] ?? 0}`);
};
