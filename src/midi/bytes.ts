/** The byte at `index`. Callers have checked that it lies inside. */
export const byteAt = (bytes: Uint8Array, index: number): number => bytes[index] as number;

/** Two bytes, the most significant first. */
export const wordAt = (bytes: Uint8Array, index: number): number =>
  byteAt(bytes, index) * 0x100 + byteAt(bytes, index + 1);

/** Four bytes, the most significant first, unsigned: 0 to 2^32 - 1. */
export const longAt = (bytes: Uint8Array, index: number): number =>
  wordAt(bytes, index) * 0x10000 + wordAt(bytes, index + 2);

/** Four bytes as RIFF writes numbers, the least significant first, unsigned. */
export const riffLongAt = (bytes: Uint8Array, index: number): number =>
  byteAt(bytes, index) +
  byteAt(bytes, index + 1) * 0x100 +
  byteAt(bytes, index + 2) * 0x10000 +
  byteAt(bytes, index + 3) * 0x1000000;

/**
 * Up to four bytes as the name of a chunk. What is no printable ASCII is written `\x00`, so that the
 * name can be shown.
 */
export const chunkIdAt = (bytes: Uint8Array, index: number, end = bytes.length): string => {
  let id = '';
  for (let at = index; at < Math.min(index + 4, end); at += 1) {
    const byte = byteAt(bytes, at);
    id +=
      byte >= 0x20 && byte < 0x7f
        ? String.fromCharCode(byte)
        : `\\x${byte.toString(16).padStart(2, '0')}`;
  }
  return id;
};
