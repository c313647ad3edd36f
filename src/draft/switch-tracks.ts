import type { DraftTrack } from './collect-tracks.ts';
import { trackWords } from './track-words.ts';

/** Common practice: switches lie within two octaves, away from the notes. */
const widest = 24;
/** How far away, in semitones, when only the keys tell. */
const octave = 12;

/** True when all keys of `track` lie at least `apart` below or above all notes of the other. */
const liesApart = (track: DraftTrack, notes: DraftTrack, apart: number): boolean => {
  const [own, other] = [track.seen.keys, notes.seen.keys];
  if (own === null || other === null || own[1] - own[0] > widest) return false;
  return other[0] - own[1] >= apart || own[0] - other[1] >= apart;
};

const wordsOf = ({ name }: DraftTrack): string =>
  trackWords(name)
    .map(({ text }) => text)
    .join(' ');

/**
 * The tracks of a group that by their names hold the switches of another one, each with it: that one
 * has the same name but for the switch word, or is the only other track. Its keys, if it has any, must allow it.
 *
 * @example `Cel switches` -> `Cel`
 */
export const switchPartners = (
  group: readonly DraftTrack[],
): ReadonlyMap<DraftTrack, DraftTrack> => {
  const others = group.filter(({ said }) => said.switchesOf === null);
  const byWords = new Map(others.map((track) => [wordsOf(track), track]));
  const only = others.length === 1 ? others[0] : undefined;
  const partners = new Map<DraftTrack, DraftTrack>();
  for (const track of group) {
    const { switchesOf } = track.said;
    const notes = switchesOf === null ? undefined : (byWords.get(switchesOf) ?? only);
    if (notes === undefined) continue;
    if (track.seen.notes === 0 || liesApart(track, notes, 1)) partners.set(track, notes);
  }
  return partners;
};

/**
 * A track of a group that may hold switches by its keys alone, and the one with the most notes, whose
 * they could be. That is for a person to say: a left hand and a right hand look the same.
 */
export const switchSuspects = (group: readonly DraftTrack[]): readonly DraftTrack[] => {
  const [first, ...rest] = group;
  if (first === undefined || rest.length === 0) return [];
  const main = rest.reduce((a, b) => (b.seen.notes > a.seen.notes ? b : a), first);
  return group.filter((track) => track !== main && liesApart(track, main, octave));
};
