import { findArticulation } from '../../instruments/find-articulation.ts';
import { everyArticulation, type Instrument } from '../../instruments/instrument.ts';
import type { Part } from '../../midi/parts.ts';
import type { Score, Track } from '../../midi/score.ts';
import { fold } from '../../notation/fold.ts';
import { CopyDrafts } from './copy-drafts.ts';
import { copyName, selectorName, trackNames, uniqueNames } from './copy-names.ts';
import { matchesOf, rulesOfCue, type Match, type NameMatches } from './matching-rules.ts';
import type { RouteLog } from './route-log.ts';
import type { Routed } from '../routed.ts';
import { taintedBy } from './tainted.ts';
import type { Template } from '../template.ts';

/** What routing must know of an instrument. */
export type RoutedInstrument = Pick<Instrument, 'playedAs' | 'articulations'>;

/** The rules that count in a cue for each of its tracks; parts of a track come one after another. */
const rulesByTrack = (
  { routes }: Pick<Template, 'routes'>,
  cue: string,
): ((track: Track) => NameMatches) => {
  const counts = rulesOfCue(routes, cue);
  let last: Track | null = null;
  let found: NameMatches = { matches: [], split: new Set() };
  return (track) => {
    if (track !== last) {
      const { matches, split } = matchesOf(routes, track.name ?? '');
      found = { matches: matches.filter(({ index }) => counts[index] === true), split };
      last = track;
    }
    return found;
  };
};

/**
 * Sends the parts of a cue file to copies of instruments (design, sections 5 and 8). The first rule
 * that matches a part decides about it. An instrument played as a bank has one copy per port, any other
 * one per track; joined tracks drive one copy. A copy belongs to one flow of time, and to one
 * articulation where its rule names one.
 *
 * @param file which of the cue's files, from 0: ports of different files are different ports
 * @param instruments by id; of one that is not there no articulation is looked for
 * @param log is told what the rules did
 */
export const routeScore = (
  template: Pick<Template, 'routes' | 'names' | 'instruments'>,
  cue: string,
  score: Score,
  parts: readonly Part[],
  file: number,
  instruments: ReadonlyMap<string, RoutedInstrument>,
  log: RouteLog,
): Routed => {
  const rulesOf = rulesByTrack(template, cue);
  const nameOf = trackNames(score);
  const unique = uniqueNames();
  const drafts = new CopyDrafts();
  const unmapped: Part[] = [];
  /** Parts without notes that no rule takes: a bank on their port hears them all the same. */
  const silent: Part[] = [];

  const articulationOf = (match: Match, id: string, track: Track): string | null => {
    const definition = instruments.get(id);
    if (match.articulation === null || definition === undefined) return null;
    const name = template.names.get(fold(match.articulation)) ?? match.articulation;
    const found = findArticulation(definition.articulations, name);
    const [index, ...others] = found.indices;
    const one = definition.articulations[index ?? -1]?.name;
    // What belongs to every articulation is none that a track could be tied to.
    if (one !== undefined && others.length === 0 && one !== everyArticulation) return one;
    log.unresolved(match, id, name, found, nameOf(track));
    return null;
  };

  /** What tells the copies of an instrument apart, and the first part of the copy's name. */
  const copyOf = (match: Match, id: string, { port, channel }: Part, track: Track) => {
    const { join, index } = match;
    const { timeline } = track;
    if (join !== null) {
      return { key: ['join', join.key, timeline], first: () => join.name, sequence: timeline };
    }
    if (instruments.get(id)?.playedAs === 'bank') {
      const first = (): string => `port ${String(port + 1)}`;
      return { key: ['port', port, timeline], first, sequence: timeline };
    }
    const isSplit = rulesOf(track).split.has(id);
    const own = (): string => nameOf(track) + (isSplit ? selectorName(match) : '');
    if (score.format !== 0) return { key: ['track', track.index, index], first: own, sequence: 0 };
    // Format 0 holds all tracks in one: what were tracks are channels now.
    const first = (): string => `${own()} channel ${String(channel + 1)}`;
    return { key: ['track', track.index, index, port, channel], first, sequence: 0 };
  };

  for (const part of parts) {
    const track = score.tracks[part.track]!;
    log.seen(track.name);
    const matching = rulesOf(track).matches.filter(
      ({ route: { port, channel } }) =>
        (port ?? part.port) === part.port && (channel ?? part.channel) === part.channel,
    );
    const [match] = matching;
    if (match === undefined) {
      if (part.notes === 0) {
        silent.push(part);
        continue;
      }
      unmapped.push(part);
      log.unmapped(cue, track.name, part.notes);
      continue;
    }
    log.decided(matching);
    const { outcome } = match.route;
    if (outcome.kind === 'ignore') continue;
    const { printed, transform } = outcome;
    for (const instrument of outcome.instruments) {
      const articulation = articulationOf(match, instrument, track);
      const { key, first, sequence } = copyOf(match, instrument, part, track);
      drafts.add(
        JSON.stringify([instrument, articulation, printed, ...key]),
        part,
        transform,
        () => {
          const name = copyName(first(), { sequence, file, articulation, printed });
          return { name: unique(instrument, name), instrument, articulation, printed };
        },
      );
    }
  }
  const isBank = (id: string): boolean => instruments.get(id)?.playedAs === 'bank';
  for (const part of silent) {
    const { timeline } = score.tracks[part.track]!;
    drafts.overhear(part, ({ instrument, sources }) => {
      const [first] = sources;
      if (first === undefined || !isBank(instrument) || first.port !== part.port) return false;
      return score.tracks[first.track]!.timeline === timeline;
    });
  }
  return {
    copies: drafts.copies,
    unmapped,
    tainted: taintedBy(
      score,
      template,
      (track) => rulesOf(track).matches,
      // Its port hears the system messages of every track, those of a damaged one too.
      drafts.copies.map(({ instrument }) => instrument).filter(isBank),
      log,
    ),
  };
};
