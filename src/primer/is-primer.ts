/** By this a file is known as a primer of this tool's: a text event (FF 01) of its first track. */
export const primerMark = 'keepset primer';

/** @param bytes the first 256 bytes of a file, or more */
export const isPrimer = (bytes: Uint8Array): boolean => {
  const text = String.fromCharCode(...bytes.subarray(0, 256));
  const at = text.indexOf(primerMark);
  const length = String.fromCharCode(primerMark.length);
  return text.startsWith('MThd') && at > 22 && text.slice(at - 3, at) === `\u00ff\u0001${length}`;
};
