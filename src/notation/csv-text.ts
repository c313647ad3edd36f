export type TableEncoding = 'utf-8' | 'utf-16' | 'windows-1252';

/**
 * Windows-1252 where it differs from Latin-1: bytes 0x80 to 0x9f. The five it leaves open stand for
 * themselves, as in the Encoding Standard (WHATWG), index windows-1252. Our own table, because the
 * decoder of some versions of Node takes these bytes for Latin-1.
 */
const from0x80 = '€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ';

const windows1252 = (bytes: Uint8Array): string => {
  const pieces: string[] = [];
  // In pieces: a call with a hundred thousand arguments overflows the stack.
  for (let at = 0; at < bytes.length; at += 4096) {
    const codes = Array.from(bytes.subarray(at, at + 4096), (byte) =>
      byte >= 0x80 && byte < 0xa0 ? from0x80.charCodeAt(byte - 0x80) : byte,
    );
    pieces.push(String.fromCharCode(...codes));
  }
  return pieces.join('');
};

const startsWith = (bytes: Uint8Array, ...mark: readonly number[]): boolean =>
  mark.every((byte, i) => bytes[i] === byte);

/**
 * The text of a table. A byte order mark tells the encoding and is left out; without one it is UTF-8
 * when it is valid UTF-8, else Windows-1252, which spreadsheets in Western Europe save.
 */
export const decodeTable = (
  bytes: Uint8Array,
): { readonly text: string; readonly encoding: TableEncoding } => {
  if (startsWith(bytes, 0xff, 0xfe)) {
    return { text: new TextDecoder('utf-16le').decode(bytes), encoding: 'utf-16' };
  }
  if (startsWith(bytes, 0xfe, 0xff)) {
    return { text: new TextDecoder('utf-16be').decode(bytes), encoding: 'utf-16' };
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8' };
  } catch {
    // A mark in front of text that is no UTF-8 after all: lines of two programs in one file.
    const rest = startsWith(bytes, 0xef, 0xbb, 0xbf) ? bytes.subarray(3) : bytes;
    return { text: windows1252(rest), encoding: 'windows-1252' };
  }
};
