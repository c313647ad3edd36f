import { fold } from '../notation/fold.ts';
import { compilePattern } from '../template/patterns/compile-pattern.ts';
import { matchPrepared, prepareName } from '../template/patterns/match-pattern.ts';
import type { Pattern } from '../template/patterns/pattern.ts';
import type { DraftTrack } from './collect-tracks.ts';
import type { DraftRule } from './draft-rule.ts';
import type { TrackGroup } from './group-tracks.ts';
import { capture, capturePattern } from './name-patterns.ts';

/** How often a name may be held against a pattern; beyond, names are spelled out. */
const mostTries = 1_000_000;

/** The words of a name that say its articulation, folded; null where they stand apart. */
export const articulationWords = ({ name, said }: DraftTrack): string | null => {
  const span = said.articulation?.span ?? null;
  return span === null ? null : fold(name.slice(...span));
};

/** What `{art}` holds of a name by the first pattern that takes it; null when none does. */
const captured = (patterns: readonly Pattern[], { name }: DraftTrack): string | null => {
  const prepared = prepareName(name);
  for (const pattern of patterns) {
    const found = matchPrepared(pattern, prepared)?.get('art');
    if (found !== undefined) return fold(found);
  }
  return null;
};

const lengthOf = ({ pieces }: Pattern): number =>
  pieces.reduce((sum, { length }) => sum + length, 0);

/**
 * A rule that captures the articulation, for those of the tracks for which it captures just that;
 * null when it does for none. Names that differ only in the articulation have one pattern.
 */
export const captureRule = (group: TrackGroup, tracks: readonly DraftTrack[]): DraftRule | null => {
  const patterns = new Map<string, Pattern>();
  const patternOf = new Map<DraftTrack, string>();
  for (const track of tracks) {
    const span = track.said.articulation?.span ?? null;
    if (span === null) continue;
    const pattern = compilePattern(capturePattern(track.name, span));
    if ('problem' in pattern) continue;
    const id = JSON.stringify(pattern.pieces);
    if (!patterns.has(id)) patterns.set(id, pattern);
    patternOf.set(track, id);
  }
  if (patterns.size * tracks.length > mostTries) return null;
  // The longer first: `Vln 1 {art}` before `Vln {art}`, which takes those names as well.
  const inOrder = [...patterns.values()].sort((a, b) => lengthOf(b) - lengthOf(a));
  const taken = [...patternOf.keys()].filter(
    (track) => captured(inOrder, track) === articulationWords(track),
  );
  if (taken.length === 0) return null;
  const used = new Set(taken.map((track) => patterns.get(patternOf.get(track) ?? '')));
  return {
    group,
    tracks: taken,
    by: 'track',
    patterns: inOrder.filter((pattern) => used.has(pattern)).map(({ text }) => text),
    articulation: capture,
    comments: [],
  };
};
