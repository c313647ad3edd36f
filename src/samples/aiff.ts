import { commBytes, readAiffFormat, type AiffFormat } from './aiff-format.ts';
import { instBytes, loopBetween, loopMarkers } from './aiff-loop.ts';
import { walkChunks, type Chunk } from './chunks.ts';
import type { HeaderBytes } from './header-bytes.ts';
import { loopInside } from './loops.ts';
import { viewOf } from './numbers.ts';
import { isHeaderFault, type HeaderRemark, type HeaderResult } from './sample-header.ts';

const formBytes = 12;
const ssndBytes = 8;
/** Two markers of a loop are looked for this far into a MARK chunk. */
const markBytes = 16 * 1024;

const known = new Set([
  'COMM',
  'SSND',
  'MARK',
  'INST',
  'FVER',
  'COMT',
  'NAME',
  'AUTH',
  'ANNO',
  'APPL',
  'MIDI',
  'ID3 ',
]);

/**
 * Reads the header of an AIFF or AIFF-C file (AIFF 1.3; "AIFF-C", draft of 26 August 1991). One read
 * when nothing stands behind the sound, usually two when something does. The chunks may stand in any
 * order.
 */
export const readAiff = async (bytes: HeaderBytes): Promise<HeaderResult> => {
  const form = await bytes.view(0, formBytes);
  const compressed = form[11] === 0x43;
  const remarks: HeaderRemark[] = [];
  const parts: Parts = { comm: null, ssnd: null, mark: null, inst: null };
  const visit = async (chunk: Chunk): Promise<void> => {
    const part = (most: number) => bytes.view(chunk.start, Math.min(chunk.length, most));
    if (chunk.id === 'COMM') parts.comm ??= await part(commBytes);
    if (chunk.id === 'SSND') parts.ssnd ??= { chunk, head: await part(ssndBytes) };
    if (chunk.id === 'MARK') parts.mark ??= await part(markBytes);
    if (chunk.id === 'INST') parts.inst ??= await part(instBytes);
  };
  const cut = await walkChunks(bytes, formBytes, { littleEndian: false, known }, visit);

  if (bytes.exhausted) {
    if (parts.comm === null || parts.ssnd === null) return { code: 'scattered' };
    remarks.push({ code: 'search-stopped' });
  }
  if (cut?.id === 'COMM') return { code: 'cut', part: 'COMM' };
  const short = cut !== null || viewOf(form).getUint32(4) + 8 > bytes.size;
  if (parts.comm === null) {
    return short ? { code: 'cut', part: 'COMM' } : { code: 'chunk-missing', chunk: 'COMM' };
  }
  const format = readAiffFormat(parts.comm, compressed);
  if (isHeaderFault(format)) return format;
  if (parts.ssnd === null) return short ? { code: 'cut', part: 'SSND' } : { code: 'no-sound' };
  return finish(format, parts.ssnd, parts, cut, remarks);
};

interface Sound {
  readonly chunk: Chunk;
  readonly head: Uint8Array;
}

interface Parts {
  comm: Uint8Array | null;
  ssnd: Sound | null;
  mark: Uint8Array | null;
  inst: Uint8Array | null;
}

const finish = (
  format: AiffFormat,
  ssnd: Sound,
  { mark, inst }: Readonly<Parts>,
  cut: Chunk | null,
  remarks: HeaderRemark[],
): HeaderResult => {
  if (cut !== null && cut !== ssnd.chunk) remarks.push({ code: 'chunk-cut', chunk: cut.id });
  const frames = framesOf(format, ssnd, remarks);
  if (frames === 0)
    return ssnd.chunk === cut ? { code: 'cut', part: 'SSND' } : { code: 'no-sound' };
  const markers = inst === null ? null : loopMarkers(inst);
  const between = markers === null ? null : loopBetween(markers, mark ?? new Uint8Array(0));
  if (markers !== null && between === null) remarks.push({ code: 'loop-unread' });
  const { channels, width, widthAssumed, rate } = format;
  const loop = loopInside(between, frames, remarks);
  return { format: 'aiff', frames, channels, width, widthAssumed, rate, loop, remarks };
};

/**
 * The frames that COMM promises, as far as SSND holds them (AIFF 1.3, "The Sound Data Chunk": the
 * sound begins `offset` bytes behind the chunk's two numbers). A writer that could not go back leaves
 * a COMM of 0 frames over a sound with bytes, or sizes beyond any file: then the bytes say it.
 */
const framesOf = (format: AiffFormat, { chunk, head }: Sound, remarks: HeaderRemark[]): number => {
  if (head.length < ssndBytes) return 0;
  const skipped = ssndBytes + viewOf(head).getUint32(0);
  const present = Math.max(0, chunk.length - skipped);
  const held = Math.floor(present / format.frameBytes);
  const written = format.frames;
  if (written === held) return held;
  if (chunk.length < chunk.promised && written > held) {
    remarks.push(
      chunk.promised >= 0x7f000000
        ? { code: 'size-unset' }
        : { code: 'sound-cut', promised: written * format.frameBytes, present },
    );
    return held;
  }
  const taken = written === 0 ? held : Math.min(written, held);
  if (taken > 0) remarks.push({ code: 'frame-count', written, taken });
  return taken;
};
