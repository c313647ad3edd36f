import { wordAt } from './bytes.ts';
import type { Chunk } from './chunks.ts';
import type { Division } from './score.ts';

/** What a header chunk says (SMF 1.0, "Header Chunks"). */
export interface Header {
  /** As written: 0 to 65535. */
  readonly format: number;
  /** Track chunks promised. */
  readonly tracks: number;
  /** Null when a tick would have no length: a division, or ticks a frame, of 0. */
  readonly division: Division | null;
}

/** Bytes of a header's data. A longer header is legal: the rest is skipped. */
export const headerLength = 6;

const division = (word: number): Division | null => {
  if (word < 0x8000) return word === 0 ? null : { kind: 'metrical', ticksPerQuarter: word };
  const ticksPerFrame = word & 0xff;
  // The frame rate is the high byte as a negative number.
  const framesPerSecond = 0x100 - (word >>> 8);
  return ticksPerFrame === 0 ? null : { kind: 'smpte', framesPerSecond, ticksPerFrame };
};

/** Reads a header chunk; null when it is too short to hold one. */
export const readHeader = (bytes: Uint8Array, chunk: Chunk): Header | null =>
  chunk.end - chunk.start < headerLength
    ? null
    : {
        format: wordAt(bytes, chunk.start),
        tracks: wordAt(bytes, chunk.start + 2),
        division: division(wordAt(bytes, chunk.start + 4)),
      };
