import { latin1 } from '../../instruments/soundfont/binary.ts';
import type { RangeReader } from '../../instruments/soundfont/range-reader.ts';
import type { Chunk } from '../../instruments/soundfont/riff.ts';
import type { Piece } from '../output-file.ts';
import { asciiBytes, chunkPieces, madePiece } from './riff-pieces.ts';

/** Bytes that the texts may have, the NULs at their end included (SoundFont 2.04, 5.10, 5.11). */
const mostBytes = { ICMT: 65_536, ISFT: 256 } as const;

const tool = 'keepset';

/**
 * The chunks of the INFO list: all as they stood and in their order, unknown ones too, but that ISFT
 * names this tool as the last that wrote the bank, and ICMT says what was done. A comment that has no
 * room for the note stays as it is: it may hold the terms of use.
 *
 * @param note one ASCII sentence
 */
export const infoPieces = async (
  reader: RangeReader,
  info: readonly Chunk[],
  note: string,
): Promise<readonly Piece[]> => {
  const software = info.find(({ id }) => id === 'ISFT');
  const comment = info.find(({ id }) => id === 'ICMT');
  const pieces: Piece[] = [];
  for (const chunk of info) {
    if (chunk === software) pieces.push(...text('ISFT', await softwareText(reader, chunk)));
    else if (chunk === comment) pieces.push(...(await commentPieces(reader, chunk, note)));
    else pieces.push(...verbatim(reader, chunk));
  }
  if (software === undefined) pieces.push(...text('ISFT', tool));
  if (comment === undefined) pieces.push(...text('ICMT', note.slice(0, mostBytes.ICMT - 2)));
  return pieces;
};

/** The tool that made the bank stands before a colon, the last one that changed it behind (5.11). */
const softwareText = async (reader: RangeReader, chunk: Chunk): Promise<string> => {
  const before = await readText(reader, chunk, mostBytes.ISFT);
  const ending = `:${tool}`;
  const creator = before.split(':')[0]!.slice(0, mostBytes.ISFT - ending.length - 1);
  return creator === '' ? tool : creator + ending;
};

const commentPieces = async (
  reader: RangeReader,
  chunk: Chunk,
  note: string,
): Promise<readonly Piece[]> => {
  if (chunk.length > mostBytes.ICMT) return verbatim(reader, chunk);
  const before = await readText(reader, chunk, mostBytes.ICMT);
  const after = before === '' ? note : `${before}\n${note}`;
  return after.length < mostBytes.ICMT ? text('ICMT', after) : verbatim(reader, chunk);
};

/** A text up to its NUL; no more than `most` bytes are read, whatever the chunk claims. */
const readText = async (
  reader: RangeReader,
  { start, length }: Chunk,
  most: number,
): Promise<string> => {
  const bytes = await reader.read(start, Math.min(length, most));
  const end = bytes.indexOf(0);
  return latin1InParts(end < 0 ? bytes : bytes.subarray(0, end));
};

/** A function call takes no more than some ten thousand arguments. */
const latin1InParts = (bytes: Uint8Array): string => {
  const parts = [];
  for (let i = 0; i < bytes.length; i += 4096) parts.push(latin1(bytes.subarray(i, i + 4096)));
  return parts.join('');
};

/** A chunk with one or two NULs at the end of its text, so that its size is even (5.10, 5.11). */
const text = (id: keyof typeof mostBytes, letters: string): readonly Piece[] => {
  const bytes = new Uint8Array(letters.length + 2 - (letters.length % 2));
  bytes.set(asciiBytes(letters));
  return chunkPieces(id, [madePiece(bytes)]);
};

/** A chunk with its header; the pad byte is made, as the last chunk of a list may lack it. */
const verbatim = ({ path, size }: RangeReader, { at, start, length }: Chunk): readonly Piece[] => [
  { kind: 'copy', path, start: at, length: start + length - at, size },
  ...(length % 2 === 0 ? [] : [madePiece(new Uint8Array(1))]),
];
