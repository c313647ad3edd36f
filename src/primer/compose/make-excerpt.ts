import { programFor } from '../../playback/play-cue.ts';
import { barStart } from '../excerpts/bar-lines.ts';
import type { BarRun } from '../excerpts/choose-bars.ts';
import { cutExcerpt } from '../excerpts/cut-excerpt.ts';
import { copyKey } from '../excerpts/find-bars.ts';
import type { Excerpt } from './excerpt.ts';
import type { PrimerTracks } from '../copies/primer-tracks-of.ts';
import type { ComposeInput } from './input.ts';

/** Cuts bars out of their cue, on tracks of the primer; and the copies that play them. */
export const makeExcerpt = async (
  { plan, files, instruments, open }: Pick<ComposeInput, 'plan' | 'files' | 'instruments' | 'open'>,
  tracks: PrimerTracks,
  run: BarRun,
): Promise<Omit<Excerpt, 'run'>> => {
  const { file, score, routed } = await open(files[run.file]!);
  const copies = routed.copies.filter(
    ({ instrument, name, printed }) => !printed && run.copies.has(copyKey(instrument, name)),
  );
  const timeline = score.timelines[score.tracks[copies[0]!.sources[0]!.track]!.timeline]!;
  const end = score.tracks.reduce((last, track) => Math.max(last, track.end), 0) + 1;
  const { slack } = plan.settings;
  const events = cutExcerpt(
    score,
    timeline,
    copies.map((copy) => ({
      copy,
      program: programFor(instruments.get(copy.instrument)!, copy.articulation),
      trackOf: (track) => {
        const { port } = copy.sources.find((source) => source.track === track)!;
        return tracks.trackFor(score, track, port, file.cue);
      },
    })),
    {
      from: barStart(timeline, run.from, end),
      to: barStart(timeline, run.to + 1, end),
    },
    slack,
  );
  return {
    events,
    copies: copies.map((copy) => ({
      instrument: instruments.get(copy.instrument)!,
      copy: tracks.moved(copy, score, file.cue),
      slack,
    })),
  };
};
