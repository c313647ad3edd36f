import type { DraftOutline } from './draft.ts';
import type { TrackGroup } from './group-tracks.ts';
import { outlineStub } from './outline-stub.ts';
import { outlinePlace, type OutlinesWanted } from './outlines-wanted.ts';
import type { SeenSwitches } from './stub-articulations.ts';

/**
 * An outline for each new instrument of the groups.
 *
 * @param names words of track names -> articulations, as the template has them; keys folded
 */
export const draftOutlines = (
  groups: readonly TrackGroup[],
  wanted: OutlinesWanted | null,
  names: SeenSwitches['names'] = new Map(),
): readonly DraftOutline[] => {
  if (wanted === null) return [];
  const { pressesOf, middleC } = wanted;
  return groups.flatMap((group): readonly DraftOutline[] => {
    const { instrument, isNew } = group;
    if (instrument === null || !isNew) return [];
    return [
      {
        instrument,
        path: outlinePlace(wanted, instrument),
        isThere: false,
        text: outlineStub(instrument, group, { pressesOf, names }, middleC),
      },
    ];
  });
};
