import fc from 'fast-check';
import { parseBuffer } from 'music-metadata';
import { describe, expect, test } from 'vitest';
import { isHeaderFault } from '../../src/samples/sample-header.ts';
import { headerOf } from './counted.ts';
import { anyAiff, anyFlac, anyWav } from './random-sample.ts';

/**
 * An independent reader (npm). It knows nothing of loops, and it does not know the length of a WAVE
 * file whose sound comes before its format, nor AIFF rates above 2^16 to the last bit: these are left
 * out. Its view of Ogg Vorbis is asked for beside `oggenc`, as it needs all three headers.
 */
describe('music-metadata', () => {
  test.each([
    ['WAVE', anyWav],
    ['AIFF', anyAiff],
    ['FLAC', anyFlac],
  ])('agrees on %s', async (_, sample) => {
    let compared = 0;
    await fc.assert(
      fc.asyncProperty(sample, async ({ file }) => {
        const { format } = await parseBuffer(file);
        const ours = await headerOf(file);
        if (isHeaderFault(ours)) throw new Error(ours.code);
        const { frames, channels, rate, width } = ours;
        const seconds = format.duration;
        fc.pre(seconds !== undefined && Number.isFinite(seconds));
        fc.pre(ours.format !== 'aiff' || rate < 2 ** 16);
        compared += 1;
        expect(channels).toBe(format.numberOfChannels);
        expect(rate).toBe(format.sampleRate);
        expect(frames).toBe(Math.round(seconds * rate));
        expect(width).toBe(Math.ceil((format.bitsPerSample ?? 0) / 8));
      }),
      { seed: 51, numRuns: 100 },
    );
    expect(compared).toBe(100);
  });
});
