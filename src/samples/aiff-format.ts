import { chunkIdAt } from '../midi/bytes.ts';
import { float80 } from './float80.ts';
import { viewOf } from './numbers.ts';
import type { HeaderFault } from './sample-header.ts';

/** What a COMM chunk says. */
export interface AiffFormat {
  readonly channels: number;
  readonly frames: number;
  readonly rate: number;
  /** Bytes of one frame in the file. */
  readonly frameBytes: number;
  readonly width: number;
  readonly widthAssumed: boolean;
}

/** The bytes of a COMM chunk that {@link readAiffFormat} looks at: 18 in AIFF, 22 in AIFF-C. */
export const commBytes = 22;

/**
 * Compression types whose width does not follow from the sample size ("AIFF-C", draft of 26 August
 * 1991, "Common Chunk", gives the first; the others are common practice).
 */
const fixedWidths = new Map([
  ['fl32', 4],
  ['FL32', 4],
  ['fl64', 8],
  ['FL64', 8],
  ['in24', 3],
  ['42ni', 3],
  ['in32', 4],
  ['23ni', 4],
  ['raw ', 1],
]);
/** Not compressed: `sowt` is `twos` with the least significant byte first (common practice). */
const plain = new Set(['NONE', 'twos', 'sowt']);
/** One byte a frame and channel, which becomes 16 bits. */
const laws = new Set(['ulaw', 'ULAW', 'alaw', 'ALAW']);

/**
 * Reads a COMM chunk (AIFF 1.3, "The Common Chunk"; "AIFF-C", draft of 26 August 1991, "Common
 * Chunk"): sample points fill whole bytes, left-justified.
 *
 * @param comm the chunk's data, at least its first {@link commBytes} when it has them
 * @param compressed true in an AIFF-C file
 */
export const readAiffFormat = (comm: Uint8Array, compressed: boolean): AiffFormat | HeaderFault => {
  if (comm.length < (compressed ? commBytes : 18)) return impossible('ckSize', comm.length);
  const view = viewOf(comm);
  const channels = view.getInt16(0);
  const frames = view.getUint32(2);
  const bits = view.getInt16(6);
  const rate = float80(comm.subarray(8, 18));
  if (channels < 1) return impossible('numChannels', channels);
  if (!(rate >= 1 && rate < 2 ** 32)) {
    return impossible('sampleRate', Number.isFinite(rate) ? rate : 0);
  }
  const type = compressed ? chunkIdAt(comm, 18) : 'NONE';
  if (laws.has(type)) {
    return { channels, frames, rate, frameBytes: channels, width: 2, widthAssumed: true };
  }
  const fixed = fixedWidths.get(type);
  if (fixed === undefined && !plain.has(type)) {
    return { code: 'unsupported', what: `AIFF-C ${type}` };
  }
  if (fixed === undefined && (bits < 1 || bits > 64)) return impossible('sampleSize', bits);
  const width = fixed ?? Math.ceil(bits / 8);
  return { channels, frames, rate, frameBytes: width * channels, width, widthAssumed: false };
};

const impossible = (field: string, value: number): HeaderFault => ({
  code: 'impossible',
  field,
  value,
});
