import fc from 'fast-check';
import { expect, test } from 'vitest';
import { randomReel, randomSfz } from '../oracle/sfz-random.ts';
import { inSeconds } from '../playback/sfz-cue.ts';
import { byEngine, byOracle } from '../playback/sfz-verdicts.ts';
import { onlyPart, proveSeed } from './seeded.ts';

/** As in the tests, with the seed of the proofs and at full size thousands of instruments. */
const numRuns = onlyPart ? 300 : 5000;

test.each([
  ['without fades', { fades: false }],
  ['with fades', { fades: true }],
])(
  'the engine reaches the regions of an SFZ as the naive player does, %s',
  { timeout: 0 },
  async (_, options) => {
    await fc.assert(
      fc.asyncProperty(randomSfz(options), randomReel(), async (data, cues) => {
        const reel = cues.map(inSeconds);
        expect(await byEngine(data, reel)).toEqual(byOracle(data, reel));
      }),
      { numRuns, seed: proveSeed },
    );
  },
);
