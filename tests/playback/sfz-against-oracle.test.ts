import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tallyUsage } from '../../src/keep/tally.ts';
import { noHeadroom } from '../../src/template/template.ts';
import { namesOf, type DoubtSet } from '../../src/terms/doubt.ts';
import type { SfzDoubts, SfzReel } from '../oracle/sfz-data.ts';
import { playSfz } from '../oracle/sfz-player.ts';
import { randomReel, randomSfz } from '../oracle/sfz-random.ts';
import type { SfzData } from '../oracle/sfz-data.ts';
import { inSeconds, readText, sfzText, usageOfSfz } from './sfz-cue.ts';

/**
 * The engine and the compiler of SFZ against a naive player that was written from the facts alone and
 * imports nothing of ours: every region against every event.
 */

/** How many random instruments each test plays; the proofs at full size set it. */
const runs = Number(process.env['KEEPSET_SFZ_RUNS'] ?? 300);

interface Verdict {
  readonly reached: readonly SfzDoubts[];
  /** Only what reaching does not say already: a region that is heard needs no other reason. */
  readonly mutes: readonly SfzDoubts[];
}

const within = (a: SfzDoubts, b: SfzDoubts): boolean => a.every((name) => b.includes(name));

const verdict = (reached: readonly SfzDoubts[], mutes: readonly SfzDoubts[]): Verdict => {
  const bySize = (sets: readonly SfzDoubts[]): readonly SfzDoubts[] =>
    [...sets].sort((a, b) => (String(a) < String(b) ? -1 : 1));
  return {
    reached: bySize(reached),
    mutes: bySize(mutes.filter((set) => !reached.some((one) => within(one, set)))),
  };
};

const byEngine = async (data: SfzData, reel: SfzReel): Promise<readonly Verdict[]> => {
  const instrument = await readText(sfzText(data));
  const files = reel.map((cue, i) => usageOfSfz(instrument, cue, `1m${String(i + 1)}`));
  const options = { excluded: 0, headroom: noHeadroom, byCopy: false };
  const { zones, mutes } = tallyUsage(instrument, files, options).reach;
  const names = (sets: readonly DoubtSet[]): readonly SfzDoubts[] =>
    sets.map((set) => [...namesOf(set)].sort());
  return zones.map((sets, zone) => verdict(names(sets), names(mutes[zone]!)));
};

const byOracle = (data: SfzData, reel: SfzReel): readonly Verdict[] =>
  playSfz(data, reel).regions.map(({ reached, mutes }) => verdict(reached, mutes));

describe('reaches exactly the regions and doubts of the naive player', () => {
  test.each([
    ['without fades', { fades: false }],
    ['with fades', { fades: true }],
  ])(
    '%s',
    async (_, options) => {
      await fc.assert(
        fc.asyncProperty(randomSfz(options), randomReel(), async (data, cues) => {
          const reel = cues.map(inSeconds);
          expect(await byEngine(data, reel)).toEqual(byOracle(data, reel));
        }),
        { numRuns: runs },
      );
    },
    3_600_000,
  );
});
