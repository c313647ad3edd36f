/** Numbers and names in `bytes`; the caller has checked that they lie inside. */
export const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** Eight bytes, the least significant first; above 2^53 only nearly right, which no file reaches. */
export const wideAt = (view: DataView, at: number): number =>
  view.getUint32(at, true) + view.getUint32(at + 4, true) * 2 ** 32;

/** `0x0055`: at least four hexadecimal digits. */
export const hexOf = (value: number): string =>
  `0x${value.toString(16).toUpperCase().padStart(4, '0')}`;
