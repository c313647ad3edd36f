const headerBytes = 10;

/**
 * The length of an ID3v2 tag with its header and footer ("ID3 tag version 2.4.0 - Main Structure",
 * sections 3.1 and 3.4): four bytes of seven bits each. Null when `head` does not begin with one.
 */
export const id3Length = (head: Uint8Array): number | null => {
  const marked = head[0] === 0x49 && head[1] === 0x44 && head[2] === 0x33;
  if (!marked || head.length < headerBytes) return null;
  const size = head.subarray(6, headerBytes).reduce((sum, byte) => sum * 128 + (byte & 0x7f), 0);
  const footer = ((head[5] ?? 0) & 0x10) === 0 ? 0 : headerBytes;
  return headerBytes + size + footer;
};
