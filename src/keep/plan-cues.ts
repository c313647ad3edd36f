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
    timecode: timecodeOf(parts),
    state: states[Math.max(...parts.map(({ state }) => states.indexOf(state)))]!,
    tracks: trackNames(parts),
  }));
};

const timecodeOf = (files: readonly FileUsage[]): string | null =>
  files.flatMap(({ timelines }) => timelines).find(({ smpteOffset }) => smpteOffset !== null)
    ?.smpteOffset ?? null;

/** A name is played if any track that bears it is. */
const trackNames = (files: readonly FileUsage[]): PlanCue['tracks'] => {
  const tracks = files.flatMap((file) => file.tracks);
  const named = (list: typeof tracks): readonly string[] => [
    ...new Set(list.flatMap(({ name }) => name ?? [])),
  ];
  const played = named(tracks.filter(({ notes }) => notes > 0));
  return { played, silent: named(tracks).filter((name) => !played.includes(name)) };
};
