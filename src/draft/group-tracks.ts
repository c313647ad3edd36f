import { prepareName } from '../template/patterns/match-pattern.ts';
import type { DraftTrack } from './collect-tracks.ts';
import { instrumentIds } from './instrument-id.ts';
import { startOfLong } from './name-patterns.ts';
import { switchPartners } from './switch-tracks.ts';

/** Tracks that are put on one instrument, or on none. */
export interface TrackGroup {
  /** Id in the template; null: a click, which no instrument plays. */
  readonly instrument: string | null;
  /** False where the template has the instrument already. */
  readonly isNew: boolean;
  readonly tracks: readonly [DraftTrack, ...DraftTrack[]];
}

/** What a template that is there already says. */
export interface Known {
  /** Ids that are taken. */
  readonly ids: Iterable<string>;
  /** By {@link groupKey}, the instrument that its other tracks go to. */
  readonly homes: ReadonlyMap<string, string>;
}

const nothingKnown: Known = { ids: [], homes: new Map() };

/** What the names of a group have in common. Of a very long name the start, as patterns take it. */
const commonName = ({ name, said }: DraftTrack): string => {
  const start = startOfLong(name);
  return start === null ? said.key : prepareName(start).folded;
};

/** Equal for tracks that belong together: similar names, and the same port and channel if split. */
export const groupKey = (track: DraftTrack): string =>
  JSON.stringify([commonName(track), track.port, track.channel]);

/** What an id is made from. @example 'piano channel 3' */
const title = (track: DraftTrack): string => {
  const port = track.port === null ? '' : ` port ${String(track.port)}`;
  const channel = track.channel === null ? '' : ` channel ${String(track.channel)}`;
  return `${commonName(track)}${port}${channel}`;
};

/** Without tracks that neither play notes nor have any whose switches they could be. */
const useful = (group: readonly DraftTrack[]): readonly DraftTrack[] => {
  const partners = switchPartners(group);
  return group.filter((track) => track.seen.notes > 0 || partners.has(track));
};

/**
 * Groups tracks by similar names, in order of first appearance, and names the instruments.
 *
 * @param known for an update: what the template has
 */
export const groupTracks = (
  tracks: readonly DraftTrack[],
  { ids, homes }: Known = nothingKnown,
): readonly TrackGroup[] => {
  const groups = new Map<string, [DraftTrack, ...DraftTrack[]]>();
  for (const track of tracks) {
    const key = groupKey(track);
    const own = groups.get(key);
    if (own === undefined) groups.set(key, [track]);
    else own.push(track);
  }
  const idFor = instrumentIds(ids);
  return [...groups].flatMap(([key, all]): readonly TrackGroup[] => {
    const [first, ...rest] = useful(all);
    if (first === undefined) return [];
    const own = [first, ...rest] as const;
    const home = homes.get(key);
    if (home !== undefined) return [{ instrument: home, isNew: false, tracks: own }];
    const { isClick } = first.said;
    return [{ instrument: isClick ? null : idFor(title(first)), isNew: !isClick, tracks: own }];
  });
};

/** The articulations that the names of a group say, in order of first appearance. */
export const articulationsOf = ({
  tracks,
}: {
  readonly tracks: readonly DraftTrack[];
}): readonly string[] => [...new Set(tracks.flatMap(({ said }) => said.articulation?.name ?? []))];
