import { chunkIdAt, longAt, riffLongAt } from './bytes.ts';

/** A chunk of a file, clamped to what the file holds (SMF 1.0, "Chunks"). */
export interface Chunk {
  readonly id: string;
  /** Offset of its name. */
  readonly at: number;
  /** Its data: from `start` to `end`, without `end`. */
  readonly start: number;
  readonly end: number;
  /** The length it states; more than `end - start` when the file is cut. */
  readonly promised: number;
}

const chunkHead = 8;

/** True when the file ends before the chunk does. */
export const isCut = (chunk: Chunk): boolean => chunk.start + chunk.promised > chunk.end;

/** The chunks from `from` to `end`; fewer than eight bytes left over are a chunk that is cut. */
export const chunksIn = function* (
  bytes: Uint8Array,
  from: number,
  end: number,
): Generator<Chunk, void> {
  let at = from;
  while (at < end) {
    const id = chunkIdAt(bytes, at, end);
    if (at + chunkHead > end) {
      yield { id, at, start: end, end, promised: at + chunkHead - end };
      return;
    }
    const start = at + chunkHead;
    const promised = longAt(bytes, at + 4);
    const chunk = { id, at, start, end: Math.min(start + promised, end), promised };
    yield chunk;
    at = chunk.end;
  }
};

/**
 * Where the Standard MIDI File lies in a file: all of it, or the `data` chunk of a RIFF file of type
 * RMID (RP-029, "File Format for Including DLS Data in SMF Files"); null when there is none.
 */
export const midiChunk = (bytes: Uint8Array): Chunk | null => {
  const whole = { id: '', at: 0, start: 0, end: bytes.length, promised: bytes.length };
  const first = chunkIdAt(bytes, 0);
  if (first === 'MThd') return whole;
  if (first !== 'RIFF' || chunkIdAt(bytes, 8) !== 'RMID') return null;
  // RIFF pads chunks to an even length: the walk is done by hand.
  for (let at = 12; at + chunkHead <= bytes.length;) {
    const promised = riffLongAt(bytes, at + 4);
    const start = at + chunkHead;
    const end = Math.min(start + promised, bytes.length);
    if (chunkIdAt(bytes, at) === 'data') {
      return chunkIdAt(bytes, start) === 'MThd' ? { id: 'data', at, start, end, promised } : null;
    }
    at = end + (promised % 2);
  }
  return null;
};
