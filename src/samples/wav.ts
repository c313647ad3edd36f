import type { HeaderBytes } from './header-bytes.ts';
import { walkChunks, type Chunk } from './chunks.ts';
import { loopInside, smplBytes, smplLoop } from './loops.ts';
import { viewOf } from './numbers.ts';
import { readWideSizes } from './rf64.ts';
import { isHeaderFault, type HeaderRemark, type HeaderResult } from './sample-header.ts';
import { fmtBytes, readWavFormat, type WavFormat } from './wav-format.ts';

const formBytes = 12;

const known = new Set([
  'fmt ',
  'data',
  'fact',
  'smpl',
  'inst',
  'cue ',
  'LIST',
  'bext',
  'iXML',
  'id3 ',
  'JUNK',
  'PAD ',
]);

/**
 * Reads the header of a WAVE file in RIFF, RF64 or BW64 ("Multimedia Programming Interface and Data
 * Specifications 1.0", chapter 3, "Waveform Audio File Format"; EBU Tech 3306; ITU-R BS.2088). One
 * read when nothing stands behind the sound, usually two when something does. The chunks may stand in
 * any order; of several of a kind the first counts.
 */
export const readWav = async (bytes: HeaderBytes): Promise<HeaderResult> => {
  const form = await bytes.view(0, formBytes);
  if (form.length < formBytes) return { code: 'cut', part: 'RIFF' };
  const riffSize = viewOf(form).getUint32(4, true);
  const wide = form[3] === 0x46 ? null : await readWideSizes(bytes);
  const remarks: HeaderRemark[] = [];

  const parts: Parts = { fmt: null, data: null, fact: null, smpl: null };
  const lengthOf = (id: string, written: number, start: number): number => {
    const size = wide?.get(id);
    if (written === 0xffffffff && size !== undefined) return size;
    const present = bytes.size - start;
    const open = id === 'data' && parts.data === null;
    if (!open || !isUnset(written, present, riffSize, start)) return written;
    remarks.push({ code: 'size-unset' });
    return present;
  };
  const visit = async (chunk: Chunk): Promise<void> => {
    const part = (most: number) => bytes.view(chunk.start, Math.min(chunk.length, most));
    if (chunk.id === 'data') parts.data ??= chunk;
    if (chunk.id === 'fmt ') parts.fmt ??= await part(fmtBytes);
    if (chunk.id === 'fact') parts.fact ??= await part(4);
    if (chunk.id === 'smpl') parts.smpl ??= await part(smplBytes);
  };
  const cut = await walkChunks(bytes, formBytes, { littleEndian: true, known, lengthOf }, visit);

  if (bytes.exhausted) {
    if (parts.fmt === null || parts.data === null) return { code: 'scattered' };
    remarks.push({ code: 'search-stopped' });
  }
  const short = cut !== null || (wide === null && riffSize + 8 > bytes.size);
  return finish(parts, cut, short, remarks);
};

interface Parts {
  fmt: Uint8Array | null;
  data: Chunk | null;
  fact: Uint8Array | null;
  smpl: Uint8Array | null;
}

/**
 * True when a writer that could not go back left the size of the sound open. Such writers leave 0,
 * a little under 2^31, or 2^32 - 1 (common practice). Behind a size of 0 there may also be other
 * chunks: then the size of the whole says that it goes on.
 */
const isUnset = (written: number, present: number, riffSize: number, start: number): boolean => {
  if (written === 0) return present > 0 && (riffSize === 0xffffffff || riffSize + 8 <= start);
  return written >= 0x7fff0000 && written > present;
};

/** @param short true when the file is shorter than it says */
const finish = (
  { fmt, data, fact, smpl }: Readonly<Parts>,
  cut: Chunk | null,
  short: boolean,
  remarks: HeaderRemark[],
): HeaderResult => {
  if (cut?.id === 'fmt ') return { code: 'cut', part: 'fmt ' };
  if (fmt === null) {
    return short ? { code: 'cut', part: 'fmt ' } : { code: 'chunk-missing', chunk: 'fmt ' };
  }
  const format = readWavFormat(fmt);
  if (isHeaderFault(format)) return format;
  if (data === null) return short ? { code: 'cut', part: 'data' } : { code: 'no-sound' };

  const { promised, length } = data;
  if (length < promised) remarks.push({ code: 'sound-cut', promised, present: length });
  else if (cut !== null) remarks.push({ code: 'chunk-cut', chunk: cut.id });
  const frames = framesOf(format, data, fact, remarks);
  if (frames === 0) return length < promised ? { code: 'cut', part: 'data' } : { code: 'no-sound' };

  const { channels, width, widthAssumed, rate } = format;
  const loop = loopInside(smpl === null ? null : smplLoop(smpl), frames, remarks);
  return { format: 'wav', frames, channels, width, widthAssumed, rate, loop, remarks };
};

/**
 * The frames in the sound's bytes. Of what is compressed in blocks the last block is padded, and only
 * the `fact` chunk says how far ("New Multimedia Data Types and Data Techniques" 3.0, "Fact Chunk").
 * Some writers add a block of nothing but padding; a `fact` that leaves more than that empty is not
 * believed.
 */
const framesOf = (
  format: WavFormat,
  { length, promised }: Chunk,
  fact: Uint8Array | null,
  remarks: HeaderRemark[],
): number => {
  const { blockBytes, blockFrames, writtenBlockBytes } = format;
  if (blockFrames === 1) {
    if (blockBytes !== writtenBlockBytes) {
      remarks.push({ code: 'frame-size', written: writtenBlockBytes, taken: blockBytes });
    }
    const rest = length % blockBytes;
    if (rest > 0 && length === promised) remarks.push({ code: 'partial-frame', bytes: rest });
    return Math.floor(length / blockBytes);
  }
  const most = Math.ceil(length / blockBytes) * blockFrames;
  if (fact === null || fact.length < 4) return most;
  const written = viewOf(fact).getUint32(0, true);
  if (written <= most && written > most - 2 * blockFrames) return written;
  if (length === promised) remarks.push({ code: 'frame-count', written, taken: most });
  return most;
};
