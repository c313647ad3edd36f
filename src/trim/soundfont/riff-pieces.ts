import type { Piece } from '../output-file.ts';

/** Bytes before a chunk's data: its id and its size. */
const headerBytes = 8;

export const madePiece = (bytes: Uint8Array): Piece => ({ kind: 'bytes', bytes });

export const asciiBytes = (text: string): Uint8Array =>
  Uint8Array.from(text, (character) => character.charCodeAt(0));

const lengthOf = (pieces: readonly Piece[]): number =>
  pieces.reduce(
    (sum, piece) => sum + (piece.kind === 'bytes' ? piece.bytes.length : piece.length),
    0,
  );

/**
 * A chunk: id, size, data and the pad byte that odd data needs (SoundFont 2.04, section 3.1). A size
 * beyond 32 bits is written wrong here: the size of the whole file is what gets checked.
 */
export const chunkPieces = (id: string, data: readonly Piece[]): readonly Piece[] => {
  const length = lengthOf(data);
  const header = new Uint8Array(headerBytes);
  header.set(asciiBytes(id));
  new DataView(header.buffer).setUint32(4, length, true);
  const pad = length % 2 === 0 ? [] : [madePiece(new Uint8Array(1))];
  return [madePiece(header), ...data, ...pad];
};

/** A chunk of chunks: `RIFF` or `LIST`. */
export const formPieces = (
  id: 'RIFF' | 'LIST',
  type: string,
  chunks: readonly Piece[],
): readonly Piece[] => chunkPieces(id, [madePiece(asciiBytes(type)), ...chunks]);

/** The same bytes in as few pieces as can be: those that belong together become one. */
export const joinedPieces = (pieces: readonly Piece[]): readonly Piece[] => {
  const result: Piece[] = [];
  let made: Uint8Array[] = [];
  const finish = (): void => {
    if (made.length > 0) result.push(madePiece(concatenated(made)));
    made = [];
  };
  for (const piece of pieces) {
    if (piece.kind === 'bytes') {
      if (piece.bytes.length > 0) made.push(piece.bytes);
      continue;
    }
    if (piece.length === 0) continue;
    finish();
    const last = result.at(-1);
    const goesOn =
      last?.kind === 'copy' && last.path === piece.path && last.start + last.length === piece.start;
    if (goesOn) result[result.length - 1] = { ...last, length: last.length + piece.length };
    else result.push(piece);
  }
  finish();
  return result;
};

export const concatenated = (parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};
