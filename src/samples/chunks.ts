import { chunkIdAt } from '../midi/bytes.ts';
import type { HeaderBytes } from './header-bytes.ts';
import { viewOf } from './numbers.ts';

/** A chunk of a RIFF or IFF file; its data is not read. */
export interface Chunk {
  /** Printable; unprintable bytes are written `\x00`. */
  readonly id: string;
  /** Where its data begins. */
  readonly start: number;
  /** Bytes of data that the file holds, at most {@link promised}. */
  readonly length: number;
  readonly promised: number;
}

/** How a kind of file writes its chunks. */
export interface ChunkLayout {
  readonly littleEndian: boolean;
  /** Ids that often stand there; one of them right behind data of odd length shows a missing pad. */
  readonly known: ReadonlySet<string>;
  /** The data's length when it is not the one that is written. */
  readonly lengthOf?: (id: string, written: number, start: number) => number;
}

const headerBytes = 8;

/**
 * Walks the chunks from `at` to the end of the file or the first that is cut, in file order ("EA IFF
 * 85", section 3; "Multimedia Programming Interface and Data Specifications 1.0", chapter 2, "RIFF
 * chunks": data of odd length is followed by a pad byte, which some writers forget).
 *
 * @param visit is awaited for each chunk, so that it can look at the data while the window is there
 * @returns the chunk that is cut, if any
 */
export const walkChunks = async (
  bytes: HeaderBytes,
  at: number,
  layout: ChunkLayout,
  visit: (chunk: Chunk) => Promise<void> | void,
): Promise<Chunk | null> => {
  let next = at;
  while (next + headerBytes <= bytes.size) {
    const header = await bytes.view(next, headerBytes);
    if (header.length < headerBytes) return null;
    const id = chunkIdAt(header, 0);
    const start = next + headerBytes;
    const written = viewOf(header).getUint32(4, layout.littleEndian);
    const promised = layout.lengthOf?.(id, written, start) ?? written;
    const length = Math.min(promised, bytes.size - start);
    const chunk = { id, start, length, promised };
    await visit(chunk);
    if (length < promised) return chunk;
    next = start + length;
    if (length % 2 === 1 && next + headerBytes < bytes.size) {
      const behind = await bytes.view(next, 4);
      if (!layout.known.has(chunkIdAt(behind, 0))) next += 1;
    }
  }
  return null;
};
