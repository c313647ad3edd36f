import { withoutVersion } from '../midi/cue-name.ts';
import { fold } from '../notation/fold.ts';
import { finding, type Finding } from '../terms/finding.ts';
import type { PlanCue } from './plan.ts';

/** What tells whether a cue is whole. */
export type ComparedCue = Pick<
  PlanCue,
  'id' | 'version' | 'files' | 'notes' | 'music' | 'lastMarker' | 'state' | 'tracks'
>;

/** Seconds without music before the last marker that are nothing odd: a tail, a hit on its own (common practice). */
const leastSilence = 8;
/** The same in proportion to where the marker stands (common practice). */
const leastShare = 0.1;

/** Names that a finding bears. */
const mostNames = 5;

/**
 * Cues that look as if something were missing: a track that an older version of the cue plays; a track
 * that every other cue has, where exports hold tracks that do not play there; music that ends well before the last
 * marker. Nothing of it is certain, so it is told and not acted on. Of cues that could not be read
 * whole nothing is told: what they lack is known to be damage.
 *
 * @param cues in reel order
 * @param context further cues to compare with, of which nothing is told: those of a keep file
 * @param accepted ids of cues that are whole by the user's word
 */
export const partialCues = (
  cues: readonly ComparedCue[],
  context: readonly ComparedCue[],
  accepted: readonly string[],
): readonly Finding[] => {
  const all = [...cues, ...context.filter((one) => !cues.some((cue) => isSameFile(cue, one)))];
  const reel = tracksOfReel(all);
  return cues
    .filter(({ id, state }) => state === 'read' && !accepted.includes(id))
    .flatMap((cue) => {
      const older = olderOf(cue, all);
      const lost = older === null ? [] : missing(cue, older.tracks.played);
      const absent = missing(cue, reel.namesWithout(cue)).filter((name) => !lost.includes(name));
      return [
        ...(lost.length > 0 ? [tracksFinding(cue, 'tracks-of-version', lost, older!.id)] : []),
        ...(absent.length > 0 ? [tracksFinding(cue, 'tracks-of-reel', absent, null)] : []),
        ...endsEarly(cue),
      ];
    });
};

const isSameFile = (a: ComparedCue, b: ComparedCue): boolean =>
  a.id === b.id && digestsOf(a) === digestsOf(b);

const digestsOf = ({ files }: ComparedCue): string =>
  files
    .map(({ sha256 }) => sha256)
    .sort()
    .join(' ');

const rank = ({ version }: ComparedCue): number => version ?? -1;

/** What a cue revises: what had its id before, else the next lower version; null: there is none. */
const olderOf = (cue: ComparedCue, all: readonly ComparedCue[]): ComparedCue | null => {
  const others = all.filter(
    (one) =>
      one !== cue &&
      one.state === 'read' &&
      withoutVersion(one.id) === withoutVersion(cue.id) &&
      rank(one) <= rank(cue),
  );
  return others.reduce<ComparedCue | null>(
    (best, one) => (best === null || rank(one) > rank(best) ? one : best),
    null,
  );
};

/** Names, as written, that a cue has in no spelling. */
const missing = ({ tracks }: ComparedCue, names: readonly string[]): readonly string[] => {
  const own = new Set([...tracks.played, ...tracks.silent].map(fold));
  return names.filter((name) => !own.has(fold(name)));
};

interface ReelTracks {
  /** Names that all cues but the versions of one have; none where that says nothing. */
  namesWithout(cue: ComparedCue): readonly string[];
}

/** Where a name stands; spellings that are compared as one are one. */
interface NamedTrack {
  /** As first written. */
  readonly written: string;
  readonly played: Set<ComparedCue>;
  readonly silent: Set<ComparedCue>;
  /** Either. */
  readonly cues: Set<ComparedCue>;
}

const namedTracks = (cues: readonly ComparedCue[]): readonly NamedTrack[] => {
  const byName = new Map<string, NamedTrack>();
  const add = (cue: ComparedCue, written: string, kind: 'played' | 'silent'): void => {
    const name = fold(written);
    const known = byName.get(name) ?? {
      written,
      ...{ played: new Set(), silent: new Set(), cues: new Set() },
    };
    byName.set(name, known);
    known[kind].add(cue);
    known.cues.add(cue);
  };
  for (const cue of cues) {
    for (const name of cue.tracks.played) add(cue, name, 'played');
    for (const name of cue.tracks.silent) add(cue, name, 'silent');
  }
  return [...byName.values()];
};

/** Counted once: a reel of a thousand cues would be compared a million times. */
const tracksOfReel = (all: readonly ComparedCue[]): ReelTracks => {
  const read = all.filter(({ state }) => state === 'read');
  const names = namedTracks(read);
  return {
    namesWithout(cue) {
      const number = withoutVersion(cue.id);
      const own = read.filter(({ id }) => withoutVersion(id) === number);
      const others = read.filter((one) => !own.includes(one));
      const numbers = new Set(others.map(({ id }) => withoutVersion(id)));
      const elsewhere = (cues: ReadonlySet<ComparedCue>): number =>
        cues.size - own.filter((one) => cues.has(one)).length;
      // Where no export has a track that is silent there and plays elsewhere, tracks are missing
      // because they do not play. Tempo and click, silent everywhere, say nothing of it.
      const holdsSilent = names.some(
        ({ played, silent }) => elsewhere(played) > 0 && elsewhere(silent) > 0,
      );
      if (numbers.size < 2 || !holdsSilent) return [];
      return names
        .filter((name) => elsewhere(name.cues) === others.length)
        .map(({ written }) => written);
    },
  };
};

const tracksFinding = (
  { id, files }: ComparedCue,
  reason: 'tracks-of-version' | 'tracks-of-reel',
  names: readonly string[],
  version: string | null,
): Finding =>
  finding('warning', 'cue-looks-partial', files[0]?.path ?? null, {
    cue: id,
    reason,
    tracks: names.slice(0, mostNames),
    missing: names.length,
    version,
    seconds: null,
  });

const endsEarly = ({ id, files, notes, music, lastMarker }: ComparedCue): readonly Finding[] => {
  if (lastMarker === null || notes === 0) return [];
  const silence = lastMarker - music;
  if (silence <= Math.max(leastSilence, leastShare * lastMarker)) return [];
  return [
    finding('warning', 'cue-looks-partial', files[0]?.path ?? null, {
      cue: id,
      reason: 'markers',
      tracks: [],
      missing: 0,
      version: null,
      seconds: Math.round(silence * 1000) / 1000,
    }),
  ];
};
