import { byteAt } from './bytes.ts';

/** The quantity runs on past the end. */
export const quantityCut = -1;

/** The quantity has more than four bytes. */
export const quantityTooLong = -2;

/**
 * A variable-length quantity (SMF 1.0, "Conventions": seven bits a byte, at most four bytes).
 *
 * @returns value and number of bytes in one number, so that the reader's loop allocates nothing:
 *   take it apart with {@link quantityValue} and {@link quantitySize}; {@link quantityCut} or
 *   {@link quantityTooLong} when there is none
 */
export const readQuantity = (bytes: Uint8Array, from: number, end: number): number => {
  let value = 0;
  for (let size = 1; size <= 4; size += 1) {
    if (from + size > end) return quantityCut;
    const byte = byteAt(bytes, from + size - 1);
    value = (value << 7) | (byte & 0x7f);
    if (byte < 0x80) return (value << 3) | size;
  }
  return quantityTooLong;
};

/** 0 to 2^28 - 1. */
export const quantityValue = (packed: number): number => packed >>> 3;

/** 1 to 4 bytes. */
export const quantitySize = (packed: number): number => packed & 7;
