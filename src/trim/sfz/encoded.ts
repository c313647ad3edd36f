import type { SfzFile } from '../../instruments/sfz/text/document.ts';
import { decodeTable } from '../../notation/csv-text.ts';

/** The bytes of a text in an encoding, without a byte order mark. */
export const encoded = (
  text: string,
  encoding: SfzFile['encoding'],
  isBigEndian: boolean,
): Uint8Array => {
  switch (encoding) {
    case 'utf-8':
      return new TextEncoder().encode(text);
    case 'windows-1252':
      return Uint8Array.from(text, (character) => {
        const byte = windows1252(character);
        if (byte !== null) return byte;
        const code = character.codePointAt(0)!.toString(16);
        throw new Error(`U+${code} can't be written in Windows-1252`);
      });
    case 'utf-16': {
      const bytes = new Uint8Array(2 * text.length);
      const view = new DataView(bytes.buffer);
      for (let at = 0; at < text.length; at += 1) {
        view.setUint16(2 * at, text.charCodeAt(at), !isBigEndian);
      }
      return bytes;
    }
  }
};

/** True when a text comes out of an encoding as it went in. */
export const isEncodable = (text: string, encoding: SfzFile['encoding']): boolean =>
  encoding === 'windows-1252'
    ? Array.from(text).every((character) => windows1252(character) !== null)
    : !/\p{Surrogate}/u.test(text);

const windows1252 = (character: string): number | null => {
  const code = character.codePointAt(0)!;
  if (code < 0x80 || (code >= 0xa0 && code <= 0xff)) return code;
  for (let byte = 0x80; byte < 0xa0; byte += 1) {
    // A single byte of these is never UTF-8.
    if (decodeTable(Uint8Array.of(byte)).text === character) return byte;
  }
  return null;
};
