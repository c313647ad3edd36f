import { viewOf } from './numbers.ts';

/** A page of an Ogg stream (RFC 3533, section 6). */
export interface OggPage {
  /** Whose page it is: each stream in the file has its own number. */
  readonly serial: number;
  readonly first: boolean;
  readonly last: boolean;
  /** Of the last packet that ends on the page: for Vorbis the frames so far. -1 when none does. */
  readonly granule: number;
  /** Where its data begins and where the page ends, in the bytes it was found in. */
  readonly start: number;
  readonly end: number;
}

const headerBytes = 27;

/** The longest page: 255 segments of 255 bytes. */
export const longestPage = headerBytes + 255 + 255 * 255;

/** The page at `at`; null when none begins there or `bytes` ends inside its header. */
export const oggPageAt = (bytes: Uint8Array, at: number): OggPage | null => {
  if (!isCapture(bytes, at) || at + headerBytes > bytes.length) return null;
  const view = viewOf(bytes);
  const segments = view.getUint8(at + 26);
  const start = at + headerBytes + segments;
  if (view.getUint8(at + 4) !== 0 || start > bytes.length) return null;
  let end = start;
  for (let i = at + headerBytes; i < start; i += 1) end += bytes[i]!;
  const flags = view.getUint8(at + 5);
  return {
    serial: view.getUint32(at + 14, true),
    first: (flags & 2) !== 0,
    last: (flags & 4) !== 0,
    granule: view.getInt32(at + 10, true) * 2 ** 32 + view.getUint32(at + 6, true),
    start,
    end,
  };
};

const isCapture = (bytes: Uint8Array, at: number): boolean =>
  bytes[at] === 0x4f && bytes[at + 1] === 0x67 && bytes[at + 2] === 0x67 && bytes[at + 3] === 0x53;

/** Enough for chance; bounds the time a hostile file takes. */
const mostDamaged = 32;

/**
 * The pages in `bytes`, from the last to the first; those that are cut or damaged are passed over.
 * "OggS" may stand by chance inside a packet, so the checksum tells, except of a page that says it is
 * the last and ends where `bytes` do: no packet looks like that, and the sum costs more than a read.
 */
export const pagesBackwards = function* (bytes: Uint8Array): Generator<OggPage> {
  let end = bytes.length;
  let damaged = 0;
  let at = bytes.lastIndexOf(0x4f);
  while (at >= 0 && damaged < mostDamaged) {
    const page = oggPageAt(bytes, at);
    if (page !== null && page.end <= end) {
      const evident = page.last && page.end === bytes.length;
      if (evident || isSound(bytes, at, page.end)) {
        yield page;
        end = at;
      } else damaged += 1;
    }
    at = at === 0 ? -1 : bytes.lastIndexOf(0x4f, at - 1);
  }
};

/** The checksum at byte 22 is over the whole page with these four bytes as 0 (RFC 3533, section 6). */
const isSound = (bytes: Uint8Array, at: number, end: number): boolean => {
  const before = checksum(0, bytes, at, at + 22);
  const within = checksum(before, new Uint8Array(4), 0, 4);
  const crc = checksum(within, bytes, at + 26, end);
  return crc >>> 0 === viewOf(bytes).getUint32(at + 22, true);
};

const checksum = (from: number, bytes: Uint8Array, start: number, end: number): number => {
  let crc = from;
  for (let i = start; i < end; i += 1) crc = (crc << 8) ^ crcTable[(crc >>> 24) ^ bytes[i]!]!;
  return crc;
};

/** Generator polynomial 0x04C11DB7, bits not reflected. */
const crcTable = Int32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte << 24;
  for (let bit = 0; bit < 8; bit += 1) rest = rest < 0 ? (rest << 1) ^ 0x04c11db7 : rest << 1;
  return rest;
});
