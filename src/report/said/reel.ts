import type { OverviewGroups } from '../../overview/overview-machines.ts';
import type { Overview } from '../../overview/overview.ts';
import { plural } from '../format.ts';
import { loadTime } from '../memory-words.ts';
import { joinedSaid, listedSaid, said, type Said } from './said.ts';

/** What the older versions of a cue keep beside the newest. */
const olderKeep = ({ versions: all, bytes }: Overview['versions'][number]): Said => {
  const older = all.length === 2 ? 'the older one' : 'the older ones';
  const keep = all.length === 2 ? 'keeps' : 'keep';
  return bytes === 0
    ? [`${older} ${keep} nothing that the reel does not need anyway`]
    : said`${older} ${keep} ${{ bytes }} more`;
};

/** Cues that come in several versions, a sentence each. */
export const versionsSaid = ({ versions }: Overview): readonly Said[] =>
  versions.map(
    (one) =>
      said`${{ name: one.cue }} comes in ${plural(one.versions.length, 'version')} (${listedSaid(one.versions)}); ${olderKeep(one)}.`,
  );

/** Tracks that are audio already. */
export const printedSaid = ({ printed: { parts, bytes, tracks } }: Overview): Said => {
  if (parts === 0) return ['No track is marked as printed: every part is played.'];
  const names = tracks.map(
    ({ cue, track }) => said`${{ name: track ?? 'without a name' }} in ${{ name: cue }}`,
  );
  return said`${plural(parts, 'track')} ${parts === 1 ? 'is' : 'are'} audio already and not played: ${joinedSaid(names, ', ')}. Live, ${parts === 1 ? 'it' : 'they'} would take ${{ bytes }} more.`;
};

/** What does not fit at once, and in how many groups it does; then each of them. */
export interface GroupsSaid {
  readonly all: Said;
  readonly each: readonly Said[];
}

const time = (seconds: number | null): string => (seconds === null ? '' : `, ${loadTime(seconds)}`);

export const groupsSaid = ({ cues, machines }: Overview, all: OverviewGroups): GroupsSaid => {
  const cueName = (cue: number): string => cues[cue]?.id ?? '';
  const alone = all.alone.map(
    ({ cue, machine, missing }) =>
      said` ${{ name: cueName(cue) }} does not fit even alone: ${{ bytes: missing }} missing on machine ${{ name: machines[machine]?.id ?? '' }}.`,
  );
  return {
    all: said`The reel is loaded in ${plural(all.groups.length, 'group')}. Changes load ${{ bytes: all.load }}${time(all.seconds)}.${joinedSaid(alone, '')}`,
    each: all.groups.map(
      ({ cues: run, bytes, load, mayGo, seconds }) =>
        said`${listedSaid(run.map(cueName), 60)}: ${{ bytes }}; to load ${{ bytes: load }}${time(seconds)}, may go ${{ bytes: mayGo }}.`,
    ),
  };
};
