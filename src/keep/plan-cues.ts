import { beginOf, holdsTick, secondsInto } from '../midi/stretches.ts';
import { timecodeAt } from '../midi/timecode.ts';
import { clock } from '../midi/timeline.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { PlanCue } from './plan.ts';

const states = ['read', 'damaged', 'unreadable'] as const;

/** Files with one cue number and version are one cue; in reel order. */
export const planCues = (files: readonly FileUsage[]): readonly PlanCue[] => {
  const byCue = new Map<string, FileUsage[]>();
  for (const file of files) {
    const known = byCue.get(file.cue);
    if (known === undefined) byCue.set(file.cue, [file]);
    else known.push(file);
  }
  return [...byCue].map(([id, parts]) => ({
    id,
    files: parts.map(({ path, sha256 }) => ({ path, sha256 })),
    version: parts[0]!.version,
    parts: parts.reduce((sum, file) => sum + file.parts, 0),
    notes: parts.reduce((sum, file) => sum + file.notes, 0),
    seconds: Math.max(...parts.map(({ seconds }) => seconds)),
    music: Math.max(...parts.map(({ music }) => music)),
    lastMarker: lastMarkerOf(parts),
    timecode: timecodeOf(parts),
    state: states[Math.max(...parts.map(({ state }) => states.indexOf(state)))]!,
    tracks: trackNames(parts),
  }));
};

/** Seconds from the beginning of the cue; where a marker parts it from another, that one is none of it. */
const lastMarkerOf = (files: readonly FileUsage[]): number | null => {
  const all = files.flatMap(({ timelines, stretches }) =>
    timelines.flatMap((timeline) => {
      const tick = timeline.markers.findLast(
        (marker) =>
          marker.kind === 'marker' &&
          holdsTick(stretches, marker.tick) &&
          stretches?.some(({ from }) => from === marker.tick) !== true,
      )?.tick;
      return tick === undefined ? [] : [secondsInto(stretches, clock(timeline), tick)];
    }),
  );
  return all.length === 0 ? null : Math.round(Math.max(...all) * 1000) / 1000;
};

const timecodeOf = (files: readonly FileUsage[]): string | null => {
  for (const { timelines, stretches } of files) {
    for (const timeline of timelines) {
      const begin = clock(timeline).secondsAt(beginOf(stretches));
      const timecode = timecodeAt(timeline, begin);
      if (timecode !== null) return timecode;
    }
  }
  return null;
};

/** A name is played if any track that bears it is. */
const trackNames = (files: readonly FileUsage[]): PlanCue['tracks'] => {
  const tracks = files.flatMap((file) => file.tracks);
  const named = (list: typeof tracks): readonly string[] => [
    ...new Set(list.flatMap(({ name }) => name ?? [])),
  ];
  const played = named(tracks.filter(({ notes }) => notes > 0));
  return { played, silent: named(tracks).filter((name) => !played.includes(name)) };
};
