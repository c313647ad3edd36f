/** The demo's sample files, byte by byte, by readers of the test's own. */
import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';

const samples = demoFiles().filter(({ path }) => path.startsWith('instruments/samples/'));
const ending = (what: string): typeof samples =>
  samples.filter(({ path }) => path.endsWith(`.${what}`));
const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
const ascii = (bytes: Uint8Array, at: number, length = 4): string =>
  String.fromCharCode(...bytes.subarray(at, at + length));

/** Chunks of a RIFF (little) or IFF file (big endian) behind its first twelve bytes; all of it. */
const chunksOf = (bytes: Uint8Array, little: boolean): ReadonlyMap<string, DataView> => {
  const view = viewOf(bytes);
  expect(view.getUint32(4, little)).toBe(bytes.length - 8);
  const chunks = new Map<string, DataView>();
  let at = 12;
  while (at < bytes.length) {
    const size = view.getUint32(at + 4, little);
    chunks.set(ascii(bytes, at), viewOf(bytes.subarray(at + 8, at + 8 + size)));
    at += 8 + size + (size % 2);
  }
  expect(at).toBe(bytes.length);
  return chunks;
};

/** `toPoints` puts the loudest point at 26 200; of 24 bits the lower eight are empty. */
const loudest = 26_200;

describe('WAVE', () => {
  const read = ending('wav').map(({ path, bytes }) => {
    const chunks = chunksOf(bytes, true);
    return { path, chunks, fmt: chunks.get('fmt ')!, data: chunks.get('data')! };
  });

  test('plain PCM whose numbers agree, with sound in every file up to the same level', () => {
    for (const { path, fmt, data } of read) {
      const [tag, channels] = [fmt.getUint16(0, true), fmt.getUint16(2, true)];
      const [rate, bits] = [fmt.getUint32(4, true), fmt.getUint16(14, true)];
      expect([tag, rate], path).toEqual([1, 22_050]);
      expect(fmt.getUint16(12, true), path).toBe((channels * bits) / 8);
      expect(fmt.getUint32(8, true), path).toBe((22_050 * channels * bits) / 8);
      const width = bits / 8;
      const most = Array.from({ length: channels }, () => 0);
      for (let at = 0; at < data.byteLength; at += width) {
        const point = data.getInt16(at + width - 2, true);
        const channel = (at / width) % channels;
        most[channel] = Math.max(most[channel]!, Math.abs(point));
        if (width === 3 && data.getUint8(at) !== 0) throw new Error(`${path}: low byte`);
      }
      expect(most, path).toEqual(most.map(() => loudest));
    }
  });

  test('16 and 24 bits, mono and stereo, with and without a loop', () => {
    const kinds = new Set(
      read.map(({ chunks, fmt }) =>
        [
          `${String(fmt.getUint16(14, true))} bits`,
          `${String(fmt.getUint16(2, true))} channels`,
          chunks.has('smpl') ? 'loop' : 'whole',
        ].join(', '),
      ),
    );
    expect([...kinds].sort()).toEqual([
      '16 bits, 1 channels, whole',
      '16 bits, 2 channels, loop',
      '16 bits, 2 channels, whole',
      '24 bits, 1 channels, loop',
      '24 bits, 2 channels, loop',
      '24 bits, 2 channels, whole',
    ]);
  });

  test('loops lie in the sound, bear the key of the name, and join without a step', () => {
    const looped = read.filter(({ chunks }) => chunks.has('smpl'));
    expect(looped.length).toBeGreaterThan(50);
    for (const { path, chunks, fmt, data } of looped) {
      const smpl = chunks.get('smpl')!;
      expect([smpl.byteLength, smpl.getUint32(28, true)], path).toEqual([60, 1]);
      expect(smpl.getUint32(12, true), path).toBe(Number(/-(\d{3})\.wav$/.exec(path)![1]));
      const [start, last] = [smpl.getUint32(44, true), smpl.getUint32(48, true)];
      const frame = fmt.getUint16(12, true);
      expect(last * frame, path).toBeLessThan(data.byteLength - frame);
      expect(last - start, path).toBeGreaterThan(600);
      // The frame behind the loop is its first one again.
      const width = fmt.getUint16(14, true) / 8;
      for (let at = width - 2; at < frame; at += width) {
        const [first, after] = [start, last + 1].map((one) =>
          data.getInt16(one * frame + at, true),
        );
        expect(after, path).toBe(first);
      }
    }
  });
});

test('AIFF: big-endian numbers, the rate as a float of 80 bits', () => {
  const files = ending('aif');
  expect(files).toHaveLength(2);
  for (const { bytes } of files) {
    expect([ascii(bytes, 0), ascii(bytes, 8)]).toEqual(['FORM', 'AIFF']);
    const chunks = chunksOf(bytes, false);
    const [comm, ssnd] = [chunks.get('COMM')!, chunks.get('SSND')!];
    expect([comm.getUint16(0), comm.getUint16(6)]).toEqual([1, 16]);
    // The exponent counts from 16 383; the mantissa has its point behind the first bit.
    expect(comm.getUint32(10) * 2 ** (comm.getUint16(8) - 16_383 - 31)).toBe(22_050);
    expect(ssnd.byteLength).toBe(8 + 2 * comm.getUint32(2));
    let most = 0;
    for (let at = 8; at < ssnd.byteLength; at += 2) {
      most = Math.max(most, Math.abs(ssnd.getInt16(at)));
    }
    expect(most).toBe(loudest);
  }
});

/** Division of polynomials bit by bit over the whole message: 0 where its own checksum is at its end. */
const remainder = (bytes: Uint8Array, width: number, polynomial: number): number => {
  let left = 0;
  for (const byte of bytes) {
    for (let bit = 7; bit >= 0; bit--) {
      left = left * 2 + ((byte >> bit) & 1);
      if (left >= 2 ** width) left = (left ^ polynomial) % 2 ** width;
    }
  }
  return left;
};

test('FLAC: whole frames whose checksums hold (RFC 9639, section 9), stored as they are', () => {
  // Both were also decoded once by flac 1.4.2 (-t) and sox 14.4.2, without a complaint but for the
  // checksum of the sound, which is left open.
  const files = ending('flac');
  expect(files).toHaveLength(2);
  for (const { path, bytes } of files) {
    const view = viewOf(bytes);
    expect([ascii(bytes, 0), view.getUint32(4)]).toEqual(['fLaC', 0x80000022]);
    const word = view.getUint32(18);
    expect([word >>> 12, (word >>> 9) & 7, (word >>> 4) & 31]).toEqual([22_050, 0, 15]);
    const frames = view.getUint32(22);
    let [at, number, most, points] = [42, 0, 0, 0];
    while (at < bytes.length) {
      const isWhole = bytes[at + 2] === 0xc6; // 4096 frames at 22.05 kHz; 0x76: the count follows
      expect([...bytes.subarray(at, at + 5)]).toEqual([
        0xff,
        0xf8,
        isWhole ? 0xc6 : 0x76,
        8,
        number,
      ]);
      const head = isWhole ? 5 : 7;
      const size = isWhole ? 4096 : view.getUint16(at + 5) + 1;
      expect(remainder(bytes.subarray(at, at + head + 1), 8, 0x107), path).toBe(0);
      expect(bytes[at + head + 1]).toBe(2);
      const end = at + head + 2 + 2 * size + 2;
      expect(remainder(bytes.subarray(at, end), 16, 0x18005), path).toBe(0);
      for (let point = at + head + 2; point < end - 2; point += 2) {
        most = Math.max(most, Math.abs(view.getInt16(point)));
      }
      points += size;
      number++;
      at = end;
    }
    expect([at, points, most]).toEqual([bytes.length, frames, loudest]);
  }
});
