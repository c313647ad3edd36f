import type { HeaderBytes } from './header-bytes.ts';
import { loopInside, smplBytes, smplLoop } from './loops.ts';
import { viewOf } from './numbers.ts';
import type { HeaderFault, HeaderRemark, HeaderResult, Loop } from './sample-header.ts';

const blockHeaderBytes = 4;
const streamInfoBytes = 34;
const application = 2;

/** A frame's header, one subframe, its checksum (RFC 9639, section 9): nothing shorter is a frame. */
const leastFrameBytes = 10;

/**
 * Reads the header of a FLAC file (RFC 9639, sections 6 and 8). One read, one more for each large
 * block, such as a picture, between the first block and the sound.
 *
 * @param start where its marker `fLaC` stands: 0, or behind an ID3v2 tag
 */
export const readFlac = async (bytes: HeaderBytes, start: number): Promise<HeaderResult> => {
  const at = start + 4;
  const head = await bytes.view(at, blockHeaderBytes + streamInfoBytes);
  if (head.length < blockHeaderBytes + streamInfoBytes) return { code: 'cut', part: 'STREAMINFO' };
  const { type, length } = blockAt(head);
  if (type !== 0) return { code: 'chunk-missing', chunk: 'STREAMINFO' };
  if (length < streamInfoBytes) return impossible('STREAMINFO size', length);

  const info = streamInfo(head.subarray(blockHeaderBytes));
  const { frames, channels, rate, bits, mostBlock, leastFrame } = info;
  if (rate === 0) return impossible('sample rate', rate);
  if (bits < 4) return impossible('bits per sample', bits);
  if (mostBlock < 16) return impossible('maximum block size', mostBlock);
  const blocks = await readBlocks(bytes, at);
  const present = Math.max(0, bytes.size - blocks.end);
  if (frames === 0) return present === 0 ? { code: 'no-sound' } : { code: 'length-unknown' };

  const remarks: HeaderRemark[] = [];
  const packets = Math.ceil(frames / mostBlock);
  if (packets * leastFrameBytes > present) return { code: 'cut', part: 'frames' };
  // The last frame may be shorter than the shortest that is written down, but not missing.
  const promised = (packets - 1) * Math.max(leastFrame, leastFrameBytes) + leastFrameBytes;
  if (promised > present) remarks.push({ code: 'sound-cut', promised, present });
  if (blocks.stopped) remarks.push({ code: 'search-stopped' });
  const loop = loopInside(blocks.loop, frames, remarks);
  const width = Math.ceil(bits / 8);
  return { format: 'flac', frames, channels, width, widthAssumed: false, rate, loop, remarks };
};

const impossible = (field: string, value: number): HeaderFault => ({
  code: 'impossible',
  field,
  value,
});

/** A metadata block's header (RFC 9639, section 8.1). */
const blockAt = (header: Uint8Array): { last: boolean; type: number; length: number } => {
  const word = viewOf(header).getUint32(0);
  return { last: word >= 0x80000000, type: (word >>> 24) & 0x7f, length: word & 0xffffff };
};

/** RFC 9639, section 8.2. Frames: "interchannel samples", 36 bits, 0 when not known. */
const streamInfo = (block: Uint8Array) => {
  const view = viewOf(block);
  const word = view.getUint32(10);
  return {
    mostBlock: view.getUint16(2),
    leastFrame: view.getUint32(4) >>> 8,
    rate: word >>> 12,
    channels: ((word >>> 9) & 0x7) + 1,
    bits: ((word >>> 4) & 0x1f) + 1,
    frames: (word & 0xf) * 2 ** 32 + view.getUint32(14),
  };
};

/** Where the metadata ends, and the loop of a `smpl` chunk kept from a WAVE file. */
interface Blocks {
  readonly end: number;
  readonly loop: Loop | null;
  readonly stopped: boolean;
}

/**
 * Walks the metadata blocks. An application block `riff` holds one chunk of the WAVE file that the
 * FLAC was made of, with its id and size (RFC 9639, section 8.4; "Specification of foreign metadata
 * storage in FLAC").
 */
const readBlocks = async (bytes: HeaderBytes, first: number): Promise<Blocks> => {
  let at = first;
  let loop: Loop | null = null;
  for (;;) {
    const header = await bytes.view(at, blockHeaderBytes);
    if (header.length < blockHeaderBytes) return { end: at, loop, stopped: bytes.exhausted };
    const { last, type, length } = blockAt(header);
    const start = at + blockHeaderBytes;
    if (type === application && loop === null) {
      const chunk = await bytes.view(start, Math.min(length, riffSmpl.length + 4 + smplBytes));
      if (riffSmpl.every((byte, i) => chunk[i] === byte)) loop = smplLoop(chunk.subarray(12));
    }
    at = start + length;
    if (last) return { end: at, loop, stopped: bytes.exhausted };
  }
};

const riffSmpl = Array.from('riffsmpl', (letter) => letter.charCodeAt(0));
