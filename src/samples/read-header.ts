import { chunkIdAt } from '../midi/bytes.ts';
import { readAiff } from './aiff.ts';
import { readFlac } from './flac.ts';
import { HeaderBytes, type ReadRange } from './header-bytes.ts';
import { id3Length } from './id3.ts';
import { readOggVorbis } from './ogg-vorbis.ts';
import type { HeaderResult } from './sample-header.ts';
import { readWav } from './wav.ts';

/**
 * Reads what a sample's file says of itself: WAVE (also RF64 and BW64), AIFF and AIFF-C, FLAC, Ogg
 * Vorbis, told apart by their first bytes, never by the file's name. No sound is read: one read of
 * 4 KiB for most files, never more than twelve small ones. Rejects only when `read` does.
 *
 * @param size bytes of the whole file
 * @param read fewer bytes than asked for only at the end of the file
 */
export const readSampleHeader = async (size: number, read: ReadRange): Promise<HeaderResult> => {
  if (size <= 0) return { code: 'empty' };
  const bytes = new HeaderBytes(size, read);
  const head = await bytes.view(0, 16);
  if (head.length === 0) return { code: 'empty' };
  const begins = chunkIdAt(head, 0);
  const form = head.length < 12 ? '' : chunkIdAt(head, 8);
  switch (begins) {
    case 'RIFF':
    case 'RF64':
    case 'BW64':
      if (form === '') return { code: 'cut', part: begins };
      if (form === 'WAVE') return readWav(bytes);
      return { code: 'not-audio', begins: `${begins} ${form}` };
    case 'FORM':
      if (form === '') return { code: 'cut', part: begins };
      if (form === 'AIFF' || form === 'AIFC') return readAiff(bytes);
      if (form === '8SVX') return { code: 'unsupported', what: 'IFF 8SVX' };
      return { code: 'not-audio', begins: `${begins} ${form}` };
    case 'fLaC':
      return readFlac(bytes, 0);
    case 'OggS':
      return readOggVorbis(bytes);
    default:
      return behindTag(bytes, head);
  }
};

/** {@link readSampleHeader} for a whole file in memory. */
export const sampleHeaderOf = (file: Uint8Array): Promise<HeaderResult> =>
  readSampleHeader(file.length, (offset, length) =>
    Promise.resolve(file.subarray(offset, offset + length)),
  );

/** FLAC files may stand behind an ID3v2 tag (common practice), and so does most MPEG audio. */
const behindTag = async (bytes: HeaderBytes, head: Uint8Array): Promise<HeaderResult> => {
  const tag = id3Length(head) ?? 0;
  if (tag >= bytes.size) return { code: 'cut', part: 'ID3' };
  const behind = tag === 0 ? head : await bytes.view(tag, 16);
  const begins = chunkIdAt(behind, 0);
  if (begins === 'fLaC') return readFlac(bytes, tag);
  const other = otherAudio(behind, begins);
  return other === null
    ? { code: 'not-audio', begins: chunkIdAt(head, 0) }
    : { code: 'unsupported', what: other };
};

/** Audio that is told by its first bytes but not read, so that the fault can name it. */
const otherAudio = (head: Uint8Array, begins: string): string | null => {
  if (begins === 'RIFX') return 'WAVE in RIFX';
  if (begins === 'wvpk') return 'WavPack';
  if (begins === 'caff') return 'CAF';
  if (begins === '.snd') return 'AU';
  if (chunkIdAt(head, 4) === 'ftyp') return 'MPEG-4';
  const [first = 0, second = 0] = head;
  // Eleven bits of sync word, a version that is not reserved, and layer II or III: as layer I, the
  // same bits begin text in UTF-16.
  const layer = (second & 0x06) >> 1;
  const named = (second & 0x18) !== 0x08 && (layer === 1 || layer === 2);
  return first === 0xff && second >= 0xe0 && named ? 'MPEG audio' : null;
};
