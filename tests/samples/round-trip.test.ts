import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countReads } from './counted.ts';
import { anyAiff, anyFlac, anyOgg, anyWav } from './random-sample.ts';

describe('a header that was written reads back', () => {
  test.each([
    ['WAVE', anyWav, 3],
    ['AIFF', anyAiff, 3],
    ['FLAC', anyFlac, 1],
    ['Ogg Vorbis', anyOgg, 2],
  ])('%s', async (_, sample, mostReads) => {
    await fc.assert(
      fc.asyncProperty(sample, async ({ file, header }) => {
        const { result, reads } = await countReads(file);
        expect(result).toEqual(header);
        expect(reads.length).toBeLessThanOrEqual(mostReads);
      }),
      { seed: 31, numRuns: 400 },
    );
  });
});
