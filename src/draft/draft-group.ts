import type { DraftGroup } from './draft.ts';
import { articulationsOf, type TrackGroup } from './group-tracks.ts';
import { see } from './see.ts';

/** A group as the result shows it. */
export const draftGroup = (group: TrackGroup): DraftGroup => {
  const { instrument, isNew, tracks } = group;
  return {
    instrument,
    isNew,
    tracks: [...new Map(tracks.map(({ folded, name }) => [folded, name])).values()],
    articulations: articulationsOf(group),
    ...see(tracks.flatMap(({ parts }) => parts)),
  };
};
