import { inputError } from '../../terms/errors.ts';
import { latin1, littleEndian } from './binary.ts';
import type { RangeReader } from './range-reader.ts';

/** A stretch of a file that holds chunks. */
export interface Span {
  /** What it is called in a finding. */
  readonly name: string;
  /** First byte of the first chunk, and the first byte after the last one. */
  readonly start: number;
  readonly end: number;
}

/** A chunk's header; its data is not read. */
export interface Chunk {
  /** The chunk's id; for a list `LIST` and its type, as in `LIST pdta`. */
  readonly id: string;
  /** Where the header begins. */
  readonly at: number;
  /** Where the data begins (after a list's type), and how many bytes it has without padding. */
  readonly start: number;
  readonly length: number;
}

/** The chunks of a span in file order, and the bytes after them that are too few to be a chunk. */
export interface Chunks {
  readonly chunks: readonly Chunk[];
  readonly rest: Chunk | null;
}

const headerBytes = 8;
const listHeaderBytes = 12;

/** A SoundFont has some forty chunks; a file of empty ones must not cost a read for each of them. */
const mostChunks = 1024;

/**
 * Walks the chunk headers in a span (SoundFont 2.04, section 3.1). Data of odd length is followed by
 * a pad byte, which may be missing after the last one.
 *
 * @throws {InputError} `bank-truncated` when a chunk promises more than the span holds
 */
export const readChunks = async (reader: RangeReader, span: Span): Promise<Chunks> => {
  const chunks: Chunk[] = [];
  let at = span.start;
  while (at + headerBytes <= span.end) {
    if (chunks.length === mostChunks) {
      const args = { chunk: span.name, count: mostChunks };
      throw inputError('bank-too-large', reader.path, args, { byte: at });
    }
    const chunk = await readHeader(reader, at, span.end);
    chunks.push(chunk);
    at = chunk.start + chunk.length + (chunk.length % 2);
  }
  if (at >= span.end) return { chunks, rest: null };
  const id = latin1(await reader.read(at, span.end - at));
  return { chunks, rest: { id, at, start: at, length: span.end - at } };
};

const readHeader = async (reader: RangeReader, at: number, end: number): Promise<Chunk> => {
  const header = await reader.read(at, Math.min(listHeaderBytes, end - at));
  const id = latin1(header.subarray(0, 4));
  const promised = littleEndian(header).getUint32(4, true);
  const present = end - at - headerBytes;
  if (promised > present) {
    throw inputError('bank-truncated', reader.path, { chunk: id, promised, present }, { byte: at });
  }
  if (id !== 'LIST' || promised < 4) {
    return { id, at, start: at + headerBytes, length: promised };
  }
  const type = latin1(header.subarray(headerBytes, listHeaderBytes));
  return { id: `LIST ${type}`, at, start: at + listHeaderBytes, length: promised - 4 };
};

/**
 * The span of the chunks in a SoundFont file (SoundFont 2.04, section 4.1).
 *
 * @throws {InputError} `bank-not-a-soundfont`, or `bank-truncated` when the file is shorter than it
 *   says (section 3.3: such a loss makes it structurally unsound)
 */
export const openRiff = async (reader: RangeReader): Promise<Span> => {
  const header = await reader.read(0, Math.min(listHeaderBytes, reader.size));
  const id = latin1(header.subarray(0, 4));
  const form = latin1(header.subarray(headerBytes, listHeaderBytes));
  if (id !== 'RIFF' || form !== 'sfbk') {
    const begins = id === 'RIFF' ? `${id} ${form}` : id;
    throw inputError('bank-not-a-soundfont', reader.path, { begins }, { byte: 0 });
  }
  const promised = littleEndian(header).getUint32(4, true);
  const present = reader.size - headerBytes;
  if (promised > present) {
    throw inputError('bank-truncated', reader.path, { chunk: id, promised, present }, { byte: 0 });
  }
  return {
    name: id,
    start: listHeaderBytes,
    end: Math.max(listHeaderBytes, headerBytes + promised),
  };
};
