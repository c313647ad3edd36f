import type { SfzDocument, SfzFile } from '../../instruments/sfz/text/document.ts';
import { decodeTable } from '../../notation/csv-text.ts';
import { inputError } from '../../terms/errors.ts';
import type { Files } from '../../terms/files.ts';
import { encoded } from './encoded.ts';
import { edited, type Edit } from './edit.ts';
import { lineEndOf } from './line-end.ts';

/**
 * The bytes of each text of an instrument.
 *
 * @throws {InputError} `path-changed-while-read` when one is no longer what was read before
 */
export const readTexts = async (
  files: Files,
  document: SfzDocument,
): Promise<readonly Uint8Array[]> => {
  const texts: Uint8Array[] = [];
  for (const { path, text } of document.files) {
    const bytes = await files.read(path);
    if (decodeTable(bytes).text !== text) throw inputError('path-changed-while-read', path, {});
    texts.push(bytes);
  }
  return texts;
};

/**
 * The bytes of a text with changes: those that stay are the very same ones, new ones are written in the
 * encoding of the file.
 *
 * @param edits ascending, none over another
 */
export const writtenBytes = (
  file: SfzFile,
  bytes: Uint8Array,
  edits: readonly Edit[],
): Uint8Array => {
  if (edits.length === 0) return bytes;
  const made = withEdits(file, bytes, edits);
  if (decodeTable(made).text === edited(file.text, edits)) return made;
  // What shows the encoding is gone, or what has come to stand first looks like a byte order mark.
  const put = file.encoding === 'windows-1252' ? `// Not UTF-8: €${lineEndOf(file.text)}` : ' ';
  return withEdits(file, bytes, [{ start: 0, end: 0, put }, ...edits]);
};

const withEdits = (
  { text, encoding }: SfzFile,
  bytes: Uint8Array,
  edits: readonly Edit[],
): Uint8Array => {
  const isBigEndian = bytes[0] === 0xfe;
  const whole = encoding === 'utf-16' ? evenBytes(bytes, isBigEndian) : bytes;
  const byteAt = bytesBefore(text, encoding, whole);
  const pieces: Uint8Array[] = [whole.subarray(0, byteAt(0))];
  let at = byteAt(0);
  for (const { start, end, put } of edits) {
    pieces.push(whole.subarray(at, byteAt(start)), encoded(put, encoding, isBigEndian));
    at = byteAt(end);
  }
  pieces.push(whole.subarray(at));
  const result = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let to = 0;
  for (const piece of pieces) {
    result.set(piece, to);
    to += piece.length;
  }
  return result;
};

/** Half a character at the end was read as a replacement: what is put behind it must not complete it. */
const evenBytes = (bytes: Uint8Array, isBigEndian: boolean): Uint8Array => {
  if (bytes.length % 2 === 0) return bytes;
  const even = new Uint8Array(bytes.length + 1);
  even.set(bytes);
  even.set(encoded('\ufffd', 'utf-16', isBigEndian), bytes.length - 1);
  return even;
};

/** Where a place in a text is in its bytes, for places that never go back. */
const bytesBefore = (
  text: string,
  encoding: SfzFile['encoding'],
  bytes: Uint8Array,
): ((offset: number) => number) => {
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  if (encoding === 'utf-16') return (offset) => 2 + 2 * offset;
  if (encoding === 'windows-1252') return (offset) => (hasMark ? 3 : 0) + offset;
  let at = 0;
  let byte = hasMark ? 3 : 0;
  return (offset) => {
    for (; at < offset; at += 1) byte += bytesOfUnit(text.charCodeAt(at));
    return byte;
  };
};

/** In UTF-8: the two halves of a pair make four bytes together. */
const bytesOfUnit = (code: number): number => {
  if (code < 0x80) return 1;
  if (code < 0x800 || (code & 0xf800) === 0xd800) return 2;
  return 3;
};
