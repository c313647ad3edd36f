import type { Instrument } from '../../instruments/instrument.ts';

/** FNV-1a with 32 bits: what it begins with, and what it multiplies by (draft-eastlake-fnv, section 5). */
const offsetBasis = 0x81_1c_9d_c5;
const prime = 0x01_00_01_93;

/** @returns the hash after one more text, byte by byte of its UTF-8 (draft-eastlake-fnv, section 2) */
const hashed = (hash: number, bytes: Uint8Array): number => {
  let next = hash;
  for (const byte of bytes) next = Math.imul(next ^ byte, prime);
  return next;
};

/** FNV-1a of texts, one behind the other, as 8 hexadecimal digits. @example fnv1a(['a']) // 'e40c292c' */
export const fnv1a = (texts: readonly string[]): string => {
  const encoder = new TextEncoder();
  const hash = texts.reduce((last, text) => hashed(last, encoder.encode(text)), offsetBasis);
  return (hash >>> 0).toString(16).padStart(8, '0');
};

const known = new WeakMap<Instrument, string>();

/**
 * Tells whether the numbers of zones still mean the same: it changes with how many zones there are, what
 * each is called, and which samples it has. Sizes, ranges and remarks are of no account.
 *
 * @returns 8 hexadecimal digits
 */
export const zoneFingerprint = (instrument: Instrument): string => {
  let found = known.get(instrument);
  if (found === undefined) {
    const { zones, samples } = instrument;
    found = fnv1a([
      `${String(zones.length)}\n`,
      // Written so that no name can run into the next.
      ...zones.map(
        ({ id, key, samples: own }) =>
          `${JSON.stringify([id, key, ...own.map((sample) => samples[sample]!.name)])}\n`,
      ),
    ]);
    known.set(instrument, found);
  }
  return found;
};
