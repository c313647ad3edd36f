/** What a sample's file says of itself; no sound is read for it. */
export interface SampleHeader {
  readonly format: 'wav' | 'aiff' | 'flac' | 'ogg-vorbis';
  /** Points in time, one value per channel each; at least 1. */
  readonly frames: number;
  readonly channels: number;
  /**
   * Bytes of one frame of one channel when decoded: the container's for PCM and float, bits / 8
   * rounded up for FLAC, 2 for what has no width of its own (Vorbis, compressed WAV and AIFF-C);
   * then {@link widthAssumed}.
   */
  readonly width: number;
  readonly widthAssumed: boolean;
  /** Frames a second; AIFF allows fractions. */
  readonly rate: number;
  /** The first loop in the file; null without one. */
  readonly loop: Loop | null;
  /** What was odd but did not prevent reading, in the order it was found. */
  readonly remarks: readonly HeaderRemark[];
}

/** Frames from 0; `end` is the last frame that is played. */
export interface Loop {
  readonly start: number;
  readonly end: number;
}

/** Something odd in a header that was read all the same. */
export type HeaderRemark =
  /** The file ends before its sound does; bytes. Of a FLAC the frames are those it promises. */
  | { readonly code: 'sound-cut'; readonly promised: number; readonly present: number }
  /** The writer never filled in the size: the sound is taken to run to the end of the file. */
  | { readonly code: 'size-unset' }
  /** Bytes at the end of the sound that are too few for a frame. */
  | { readonly code: 'partial-frame'; readonly bytes: number }
  /** The bytes of a frame, as written, don't follow from width and channels. */
  | { readonly code: 'frame-size'; readonly written: number; readonly taken: number }
  /** The frames, as written, don't fit the bytes of the sound. */
  | { readonly code: 'frame-count'; readonly written: number; readonly taken: number }
  /** A loop that is not, or not wholly, inside the sound. */
  | { readonly code: 'loop-outside'; readonly start: number; readonly end: number }
  /** A loop whose markers were not found. */
  | { readonly code: 'loop-unread' }
  /** The file ends inside a chunk other than the sound. */
  | { readonly code: 'chunk-cut'; readonly chunk: string }
  /** The stream's last page is missing, damaged or not marked as the last. */
  | { readonly code: 'end-missing' }
  /** So many chunks that the search for a loop was given up. */
  | { readonly code: 'search-stopped' };

/** Why a file could not be read as a sample. */
export type HeaderFault =
  | { readonly code: 'empty' }
  /** `begins`: its first four bytes, for RIFF and IFF the form too; printable. */
  | { readonly code: 'not-audio'; readonly begins: string }
  /** Audio, but of a kind that is not read; `what` is printable, as `WAVE format 0x0055`. */
  | { readonly code: 'unsupported'; readonly what: string }
  /** The file ends inside `part`, which is needed. */
  | { readonly code: 'cut'; readonly part: string }
  /** A chunk that is needed is not there. */
  | { readonly code: 'chunk-missing'; readonly chunk: string }
  /** It holds no frame. */
  | { readonly code: 'no-sound' }
  /** A number that can't be; `field` as the standard names it. */
  | { readonly code: 'impossible'; readonly field: string; readonly value: number }
  /** It does not say how long it is, and its sound would have to be decoded to find out. */
  | { readonly code: 'length-unknown' }
  /** Needed parts lie further apart than a few small reads reach. */
  | { readonly code: 'scattered' };

/** What reading a header comes to; {@link isHeaderFault} tells the two apart. */
export type HeaderResult = SampleHeader | HeaderFault;

/** True for a fault, false for a header. */
export const isHeaderFault = (result: object): result is HeaderFault => 'code' in result;
