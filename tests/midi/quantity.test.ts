import { describe, expect, it, test } from 'vitest';
import { vlqMaximum, vlqTable } from '../../reference/smf-1.0.ts';
import {
  quantityCut,
  quantitySize,
  quantityTooLong,
  quantityValue,
  readQuantity,
} from '../../src/midi/quantity.ts';
import { hex } from './hex.ts';

const take = (bytes: Uint8Array, from = 0): { value: number; size: number } => {
  const packed = readQuantity(bytes, from, bytes.length);
  return { value: quantityValue(packed), size: quantitySize(packed) };
};

describe('variable-length quantities', () => {
  test.each(vlqTable)('RP-001, "Conventions": $value', ({ value, bytes }) => {
    expect(take(Uint8Array.from(bytes))).toEqual({ value, size: bytes.length });
    expect(take(Uint8Array.from([0xff, 0xff, ...bytes, 0x00]), 2)).toEqual({
      value,
      size: bytes.length,
    });
  });

  it('reaches the largest value of the standard', () => {
    expect(take(hex('FF FF FF 7F')).value).toBe(vlqMaximum);
  });

  it('reads a value with needless leading bytes, as long as there are four', () => {
    expect(take(hex('80 80 80 05'))).toEqual({ value: 5, size: 4 });
  });

  test.each([
    ['five bytes', '8F FF FF FF 7F', quantityTooLong],
    ['five bytes of value 0', '80 80 80 80 00', quantityTooLong],
    ['nothing', '', quantityCut],
    ['one byte that promises more', '81', quantityCut],
    ['three bytes that promise more', 'FF FF FF', quantityCut],
  ])('refuses %s', (_, text, reason) => {
    const bytes = hex(text);
    expect(readQuantity(bytes, 0, bytes.length)).toBe(reason);
  });

  it('does not look behind the end it was given', () => {
    expect(readQuantity(hex('81 80 00'), 0, 2)).toBe(quantityCut);
  });
});
