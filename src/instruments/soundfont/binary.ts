/** Little-endian numbers in `bytes` (SoundFont 2.04, section 3.1: RIFF). */
export const littleEndian = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Bytes as ISO 8859-1 text, one character a byte: control characters stay in it. */
export const latin1 = (bytes: Uint8Array): string => String.fromCharCode(...bytes);

/** A name field: text up to the first NUL (SoundFont 2.04, sections 7.2, 7.6, 7.10). */
export const nameField = (bytes: Uint8Array): string => {
  const end = bytes.indexOf(0);
  return latin1(end < 0 ? bytes : bytes.subarray(0, end));
};
