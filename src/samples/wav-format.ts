import { hexOf, viewOf } from './numbers.ts';
import type { HeaderFault } from './sample-header.ts';

/** What a `fmt ` chunk says. */
export interface WavFormat {
  readonly channels: number;
  readonly rate: number;
  /** Bytes of one block, and the frames in it: 1 unless compressed in blocks. */
  readonly blockBytes: number;
  readonly blockFrames: number;
  readonly width: number;
  readonly widthAssumed: boolean;
  /** The block's bytes as written; differs from {@link blockBytes} when they can't be right. */
  readonly writtenBlockBytes: number;
}

/** The bytes of a `fmt ` chunk that {@link readWavFormat} looks at. */
export const fmtBytes = 40;

/** Registered format tags (RFC 2361, appendix A). */
const pcm = 0x0001;
const float = 0x0003;
const laws = new Set([0x0006, 0x0007]);
/** ADPCM in two kinds and GSM 6.10: blocks whose number of frames is written behind the format. */
const blockCodecs = new Set([0x0002, 0x0011, 0x0031]);
const extensible = 0xfffe;

/** All of a subformat's GUID but the tag it begins with (mmreg.h, DEFINE_WAVEFORMATEX_GUID). */
const guidTail = [0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];

/**
 * Reads a `fmt ` chunk ("Multimedia Programming Interface and Data Specifications 1.0", chapter 3,
 * "WAVE Format Chunk"; WAVEFORMATEXTENSIBLE, mmreg.h).
 *
 * @param fmt the chunk's data, at least its first {@link fmtBytes} when it has them
 */
export const readWavFormat = (fmt: Uint8Array): WavFormat | HeaderFault => {
  if (fmt.length < 16) return impossible('fmt size', fmt.length);
  const view = viewOf(fmt);
  const channels = view.getUint16(2, true);
  const rate = view.getUint32(4, true);
  if (channels === 0) return impossible('wChannels', channels);
  if (rate === 0) return impossible('dwSamplesPerSec', rate);
  const tag = tagOf(fmt, view);
  if (typeof tag !== 'number') return tag;
  const common = { channels, rate, writtenBlockBytes: view.getUint16(12, true) };
  const bits = view.getUint16(14, true);

  if (tag === pcm) return plain(common, bits, bits > 0 && bits <= 64);
  if (tag === float) return plain(common, bits, bits === 32 || bits === 64);
  if (laws.has(tag)) {
    return { ...common, blockBytes: channels, blockFrames: 1, width: 2, widthAssumed: true };
  }
  if (blockCodecs.has(tag)) return inBlocks(common, fmt.length < 20 ? 0 : view.getUint16(18, true));
  return { code: 'unsupported', what: `WAVE format ${hexOf(tag)}` };
};

type Common = Pick<WavFormat, 'channels' | 'rate' | 'writtenBlockBytes'>;

const impossible = (field: string, value: number): HeaderFault => ({
  code: 'impossible',
  field,
  value,
});

/** The tag, of an extensible format that of its subformat. */
const tagOf = (fmt: Uint8Array, view: DataView): number | HeaderFault => {
  const tag = view.getUint16(0, true);
  if (tag !== extensible) return tag;
  if (fmt.length < fmtBytes) return impossible('fmt size', fmt.length);
  if (guidTail.some((byte, i) => fmt[26 + i] !== byte)) {
    const guid = Array.from(fmt.subarray(24, 40), (byte) => byte.toString(16).padStart(2, '0'));
    return { code: 'unsupported', what: `WAVE subformat ${guid.join('')}` };
  }
  return view.getUint16(24, true);
};

/**
 * PCM and float. The container's width is the block's bytes over the channels, which tells 24 bits in
 * 4 bytes from 24 in 3; when that can't be, the bits rounded up to bytes.
 */
const plain = (common: Common, bits: number, valid: boolean): WavFormat | HeaderFault => {
  if (!valid) return impossible('wBitsPerSample', bits);
  const least = Math.ceil(bits / 8);
  const written = common.writtenBlockBytes / common.channels;
  const width = Number.isInteger(written) && written >= least && written <= 8 ? written : least;
  const blockBytes = width * common.channels;
  return { ...common, blockBytes, blockFrames: 1, width, widthAssumed: false };
};

/** None of these codecs packs as many as five frames of a channel into a byte. */
const mostFramesPerByte = 5;

const inBlocks = (common: Common, blockFrames: number): WavFormat | HeaderFault => {
  const blockBytes = common.writtenBlockBytes;
  if (blockBytes === 0) return impossible('wBlockAlign', blockBytes);
  const most = (mostFramesPerByte * blockBytes) / common.channels;
  if (blockFrames === 0 || blockFrames > most) return impossible('wSamplesPerBlock', blockFrames);
  return { ...common, blockBytes, blockFrames, width: 2, widthAssumed: true };
};
