import { parseDecimal, type Decimal } from './decimal.ts';
import { tidy } from './tidy.ts';

/** Decimal prefixes (SI) and binary ones (IEC 80000-13). */
const units: Readonly<Record<string, bigint>> = {
  b: 1n,
  kb: 10n ** 3n,
  mb: 10n ** 6n,
  gb: 10n ** 9n,
  tb: 10n ** 12n,
  kib: 2n ** 10n,
  mib: 2n ** 20n,
  gib: 2n ** 30n,
  tib: 2n ** 40n,
};

const amount = /^([\d.,]{1,50}) ?([a-z]{1,3})$/u;

/** In whole numbers, since 0.5005 kB in binary fractions falls short of the half byte. */
const wholeBytes = ({ whole, fraction }: Decimal, unit: bigint): number | null => {
  const scale = 10n ** BigInt(fraction.length);
  const bytes = (2n * BigInt(whole + fraction) * unit + scale) / (2n * scale);
  return bytes <= BigInt(Number.MAX_SAFE_INTEGER) ? Number(bytes) : null;
};

/**
 * An amount of memory with its unit: B, kB, MB, GB, TB (powers of 1000), KiB, MiB, GiB, TiB (powers
 * of 1024), in any case, with or without a space. Only `0` needs no unit.
 *
 * @returns whole bytes, rounded half up, at most 2^53 - 1; null when it cannot be read
 * @example parseBytes('60 KiB') // 61440
 * @example parseBytes('0,6 GB', true) // 600000000
 */
export const parseBytes = (text: string, decimalComma = false): number | null => {
  const tidied = tidy(text).toLowerCase();
  if (tidied === '0') return 0;
  const [, figure = '', name = ''] = amount.exec(tidied) ?? [];
  const unit = Object.hasOwn(units, name) ? units[name] : undefined;
  const decimal = parseDecimal(figure, decimalComma);
  return unit === undefined || decimal === null ? null : wholeBytes(decimal, unit);
};

/**
 * An amount of memory where a plain whole number means bytes, as in a column of a spreadsheet; else
 * as {@link parseBytes}.
 *
 * @example parseByteCount('44100') // 44100
 */
export const parseByteCount = (text: string, decimalComma = false): number | null => {
  const tidied = tidy(text);
  return /^\d{1,24}$/u.test(tidied)
    ? wholeBytes({ whole: tidied, fraction: '' }, 1n)
    : parseBytes(tidied, decimalComma);
};
