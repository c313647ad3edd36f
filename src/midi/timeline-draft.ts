import type { Division, Marker, MeterChange, TempoChange, Timeline } from './score.ts';
import type { Timecode } from './timecode.ts';

/** A timeline while tracks are read: changes come track after track, so not in order. */
export interface TimelineDraft {
  readonly division: Division;
  readonly tempo: TempoChange[];
  readonly meter: MeterChange[];
  readonly markers: Marker[];
  smpteOffset: string | null;
  timecode: Timecode | null;
}

export const draftTimeline = (division: Division): TimelineDraft => ({
  division,
  tempo: [],
  meter: [],
  markers: [],
  smpteOffset: null,
  timecode: null,
});

const inOrder = <Item extends { readonly tick: number }>(items: readonly Item[]): Item[] =>
  // The sort is stable: on one tick the order of the file stays.
  [...items].sort((a, b) => a.tick - b.tick);

/** In order, from tick 0 on, and one change a tick: the last one of the file holds. */
const changes = <Change extends { readonly tick: number }>(
  found: readonly Change[],
  initial: Change,
): readonly Change[] => {
  const ordered = inOrder(found);
  const settled = ordered.filter((change, index) => ordered[index + 1]?.tick !== change.tick);
  return settled[0]?.tick === 0 ? settled : [initial, ...settled];
};

/** 120 quarter notes a minute and 4/4 hold where the file says nothing (SMF 1.0, "MTrk Chunks"). */
export const finishTimeline = (draft: TimelineDraft): Timeline => ({
  division: draft.division,
  tempo: changes(draft.tempo, { tick: 0, microsecondsPerQuarter: 500_000 }),
  meter: changes(draft.meter, { tick: 0, beats: 4, unit: 4 }),
  markers: inOrder(draft.markers),
  smpteOffset: draft.smpteOffset,
  timecode: draft.timecode,
});
