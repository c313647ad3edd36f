import type { Score, Track } from '../../midi/score.ts';
import type { Match } from './matching-rules.ts';
import type { RouteLog } from './route-log.ts';
import type { Template } from '../template.ts';

/**
 * Ids of the instruments that an unreadable part of a file may have played, in template order. Behind
 * the damage of a track may stand events for any port and channel, so every rule counts that its name
 * and the cue match; a name that was lost, and a track that is missing, may be any.
 *
 * @param matchesOf the rules for a track that count in the cue
 * @param banks ids of the banks that the file drives
 */
export const taintedBy = (
  { tracks, missingTracks }: Score,
  { instruments }: Pick<Template, 'instruments'>,
  matchesOf: (track: Track) => readonly Match[],
  banks: readonly string[],
  log: RouteLog,
): readonly string[] => {
  const damaged = tracks.filter((track) => track.damage !== null);
  const tainted = new Set<string>(damaged.length > 0 ? banks : []);
  for (const track of damaged) {
    for (const match of track.name === null ? [] : matchesOf(track)) {
      log.mayDecide(match);
      const { outcome } = match.route;
      if (outcome.kind === 'play' && !outcome.printed) {
        for (const id of outcome.instruments) tainted.add(id);
      }
      // It takes every port and channel: later rules never get anything of this track.
      if (match.route.port === null && match.route.channel === null) break;
    }
  }
  const all = missingTracks > 0 || damaged.some(({ name }) => name === null);
  return instruments.map(({ id }) => id).filter((id) => all || tainted.has(id));
};
