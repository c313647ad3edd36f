import type { OverviewInput } from './overview-input.ts';
import type { Overview } from './overview.ts';

/** Tracks that are audio already, in the order of the reel. */
export const overviewPrinted = ({
  plan: { printed },
  files,
}: Pick<OverviewInput, 'plan' | 'files'>): Overview['printed'] => {
  const seen = new Set<string>();
  const tracks: Overview['printed']['tracks'][number][] = [];
  for (const { cue, copies, tracks: own } of files) {
    const played = copies
      .filter((copy) => copy.printed && copy.notes > 0)
      .flatMap(({ classes }) => classes.flatMap(({ witnesses }) => witnesses.map(([at]) => at)));
    for (const at of [...new Set(played)].sort((a, b) => a - b)) {
      const track = own[at]!.name;
      const key = JSON.stringify([cue, track]);
      if (seen.has(key)) continue;
      seen.add(key);
      tracks.push({ cue, track });
    }
  }
  return { ...printed, tracks };
};
