import { viewOf } from './numbers.ts';

const bias = 16383;

/**
 * An 80-bit extended number, the most significant byte first: a sign, 15 bits of exponent, and 64
 * bits of mantissa that show their leading one (IEEE 754-1985, extended format; AIFF 1.3, "Data
 * Types": `extended`). Infinite or not a number where it says so or is out of range.
 *
 * @param bytes ten of them
 */
export const float80 = (bytes: Uint8Array): number => {
  const view = viewOf(bytes);
  const head = view.getUint16(0);
  const exponent = head & 0x7fff;
  const mantissa = view.getUint32(2) * 2 ** 32 + view.getUint32(6);
  const sign = head >= 0x8000 ? -1 : 1;
  if (exponent === 0x7fff) return mantissa === 2 ** 63 ? sign * Infinity : NaN;
  return sign * (mantissa / 2 ** 63) * 2 ** (exponent - bias);
};
