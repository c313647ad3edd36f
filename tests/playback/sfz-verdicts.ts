import { tallyUsage } from '../../src/keep/tally.ts';
import { noHeadroom } from '../../src/template/template.ts';
import { namesOf, type DoubtSet } from '../../src/terms/doubt.ts';
import type { SfzData, SfzDoubts, SfzReel } from '../oracle/sfz-data.ts';
import { playSfz } from '../oracle/sfz-player.ts';
import { readText, sfzText, usageOfSfz } from './sfz-cue.ts';

/** What becomes of one region. */
export interface Verdict {
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

/** By the engine, through text and score. */
export const byEngine = async (data: SfzData, reel: SfzReel): Promise<readonly Verdict[]> => {
  const made = await readText(sfzText(data));
  const files = reel.map((cue, i) => usageOfSfz(made, cue, `1m${String(i + 1)}`));
  const options = { excluded: 0, headroom: noHeadroom, byCopy: false };
  const { zones, mutes } = tallyUsage(made, files, options).reach;
  const names = (sets: readonly DoubtSet[]): readonly SfzDoubts[] =>
    sets.map((set) => [...namesOf(set)].sort());
  return zones.map((sets, zone) => verdict(names(sets), names(mutes[zone]!)));
};

/** By the naive player. */
export const byOracle = (data: SfzData, reel: SfzReel): readonly Verdict[] =>
  playSfz(data, reel).regions.map(({ reached, mutes }) => verdict(reached, mutes));
