import type { HeaderBytes } from './header-bytes.ts';
import { viewOf } from './numbers.ts';
import { longestPage, oggPageAt, pagesBackwards } from './ogg-page.ts';
import type { HeaderFault, HeaderRemark, HeaderResult } from './sample-header.ts';

const headBytes = 4096;
/** Usual pages have some 4 KiB. */
const tailBytes = 8 * 1024;
/** Holds a whole page, however long, when the last one is cut. */
const longTailBytes = 2 * longestPage;
const identificationBytes = 30;

/**
 * Reads the header of an Ogg Vorbis file (Vorbis I, section 4.2.2 and appendix A; RFC 3533). Two
 * reads: the first page, and the file's tail for the granule position of the last one; one when the
 * file is small, three when its last pages are long or damaged. Taken to begin at position 0, as
 * encoders write it: the length of what was cut out of a running stream comes out too large, never
 * too small.
 */
export const readOggVorbis = async (bytes: HeaderBytes): Promise<HeaderResult> => {
  const streams = readStreams(await bytes.view(0, headBytes));
  if ('code' in streams) return streams;
  const { vorbis, serial, serials } = streams;
  const { channels, rate, longBlock } = vorbis;

  let end = findEnd(await tail(bytes, tailBytes), serial, serials);
  if (end === null && bytes.size > tailBytes) {
    end = findEnd(await tail(bytes, longTailBytes), serial, serials);
  }
  if (end === 'chained') return { code: 'unsupported', what: 'Ogg, several streams in a row' };
  if (end === null) return { code: 'cut', part: 'last page' };
  const { frames, last } = end;
  if (frames === 0) return last ? { code: 'no-sound' } : { code: 'cut', part: 'last page' };
  // A packet takes at least a byte and makes at most half a long block.
  if (frames > (bytes.size * longBlock) / 2) return impossible('granule position', frames);
  const remarks: HeaderRemark[] = last ? [] : [{ code: 'end-missing' }];
  const common = { format: 'ogg-vorbis', width: 2, widthAssumed: true, loop: null } as const;
  return { ...common, frames, channels, rate, remarks };
};

const tail = (bytes: HeaderBytes, length: number): Promise<Uint8Array> => {
  const wanted = Math.min(length, bytes.size);
  return bytes.view(bytes.size - wanted, wanted);
};

const impossible = (field: string, value: number): HeaderFault => ({
  code: 'impossible',
  field,
  value,
});

interface Vorbis {
  readonly channels: number;
  readonly rate: number;
  readonly longBlock: number;
}

interface Streams {
  readonly vorbis: Vorbis;
  readonly serial: number;
  readonly serials: ReadonlySet<number>;
}

/** The streams that begin at the start of the file; the first Vorbis stream counts. */
const readStreams = (head: Uint8Array): Streams | HeaderFault => {
  const serials = new Set<number>();
  let found: { readonly vorbis: Vorbis; readonly serial: number } | null = null;
  let other: string | null = null;
  let at = 0;
  for (;;) {
    const page = oggPageAt(head, at);
    if (page === null || (!page.first && serials.size > 0)) break;
    serials.add(page.serial);
    const packet = head.subarray(page.start, Math.min(page.end, head.length));
    const codec = codecOf(packet);
    if (codec !== 'Vorbis') other ??= codec;
    else if (found === null) {
      const vorbis = readIdentification(packet);
      if ('code' in vorbis) return vorbis;
      found = { vorbis, serial: page.serial };
    }
    at = page.end;
  }
  if (found !== null) return { ...found, serials };
  if (other === null) return { code: 'cut', part: 'first page' };
  return { code: 'unsupported', what: other === '' ? 'Ogg' : `Ogg ${other}` };
};

/** How the first packet of a stream begins: Vorbis I 4.2.1, RFC 7845 5.1, RFC 9639 10.1, and others. */
const codecs = [
  ['Vorbis', '\x01vorbis'],
  ['Opus', 'OpusHead'],
  ['FLAC', '\x7fFLAC'],
  ['Speex', 'Speex   '],
  ['Theora', '\x80theora'],
] as const;

const codecOf = (packet: Uint8Array): string => {
  const begins = String.fromCharCode(...packet.subarray(0, 8));
  return codecs.find(([, mark]) => begins.startsWith(mark))?.[0] ?? '';
};

/** Vorbis I, section 4.2.2. */
const readIdentification = (packet: Uint8Array): Vorbis | HeaderFault => {
  if (packet.length < identificationBytes) return { code: 'cut', part: 'first page' };
  const view = viewOf(packet);
  const version = view.getUint32(7, true);
  const channels = view.getUint8(11);
  const rate = view.getUint32(12, true);
  const [short, long] = [view.getUint8(28) & 0xf, view.getUint8(28) >> 4];
  if (version !== 0) return { code: 'unsupported', what: `Ogg Vorbis version ${version}` };
  if (channels === 0) return impossible('audio_channels', channels);
  if (rate === 0) return impossible('audio_sample_rate', rate);
  if (short < 6 || long > 13 || short > long) return impossible('blocksize', view.getUint8(28));
  return { channels, rate, longBlock: 2 ** long };
};

/**
 * The frames up to the end of the stream, which are the granule position of its last page on which a
 * packet ends (Vorbis I, appendix A.2), and whether that page says it is the last. `chained` when the
 * tail belongs to a stream that does not begin at the start of the file.
 */
const findEnd = (
  bytes: Uint8Array,
  serial: number,
  serials: ReadonlySet<number>,
): { readonly frames: number; readonly last: boolean } | 'chained' | null => {
  let last = false;
  for (const page of pagesBackwards(bytes)) {
    if (!serials.has(page.serial)) return 'chained';
    if (page.serial !== serial) continue;
    last ||= page.last;
    if (page.granule >= 0) return { frames: page.granule, last };
  }
  return null;
};
