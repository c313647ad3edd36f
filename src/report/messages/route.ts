import type { RouteFindings } from '../../terms/findings/routes.ts';
import { printable } from '../../terms/printable.ts';
import { formatCount, plural } from '../format.ts';
import { routeSlips } from './route-slips.ts';
import { trackTableWording } from './track-table.ts';
import { words, type Wording } from './words.ts';

/** More names than this are only counted. */
const mostNames = 8;

/** Names in a sentence; a track without one is called so. */
const names = (all: readonly (string | null)[]): string => {
  const shown = all
    .slice(0, mostNames)
    .map((name) => (name === null || name === '' ? 'one without a name' : printable(name)));
  const rest = all.length - shown.length;
  return shown.join(', ') + (rest > 0 ? ` and ${formatCount(rest)} more` : '');
};

/** A question for a slip of the pen, or else what to look at. */
const didYouMean = (near: string | null, otherwise: string): string =>
  near === null ? otherwise : `Did you mean ${printable(near)}?`;

/** Routes, and the table of tracks. */
export const routeWording: Wording<keyof RouteFindings> = {
  ...routeSlips,
  ...trackTableWording,
  'part-unmapped': ({ cue, tracks, notes }) =>
    words(
      `In cue ${printable(cue)} no rule takes ${plural(notes, 'note')} on ${plural(tracks.length, 'track')}: ${names(tracks)}. What they play is not in the plan.`,
      'Add a rule that names their instrument, or one with ignore if they play none.',
    ),
  'route-unused': ({ rule }) =>
    words(
      `No part of any cue matches the rule ${printable(rule)}.`,
      'Compare its spelling with the names of the tracks in the cues; take the rule out if it is no longer needed.',
    ),
  'rows-unused': ({ rows, of, first }) =>
    words(
      `${formatCount(rows)} of ${plural(of, 'row')} in the table of tracks ${rows === 1 ? 'matches' : 'match'} no part of any cue: ${names(first)}${rows > first.length ? ' and so on' : ''}.`,
      rows === of
        ? 'Compare the names in the table with those of the tracks in the cues; perhaps it is the table of another template.'
        : 'Nothing needs to be done if the cues do not use these tracks.',
    ),
  'route-shadowed': ({ rule, by, in: file, line }) =>
    words(
      `The rule ${printable(rule)} never decides: an earlier rule takes all of its parts, ${printable(by)} in ${printable(file)} line ${formatCount(line)}.`,
      'The first rule that matches counts: move this one up, or take it out.',
    ),
  'route-articulation': ({ instrument, articulation, tracks, matches, near }) =>
    words(
      `The articulation "${printable(articulation)}" ${matches === 0 ? 'is not one' : `may be any of ${formatCount(matches)} articulations`} of ${printable(instrument)}, so its switches decide there instead. Tracks: ${names(tracks)}.`,
      matches === 0
        ? didYouMean(
            near,
            'Write an articulation as the instrument calls it, or say under names what the word stands for.',
          )
        : 'Write the whole name of the one that is meant.',
    ),
  'notes-out-of-range': ({ cue, track, notes }) =>
    words(
      `In cue ${printable(cue)} transposing puts ${plural(notes, 'note')} of ${track === null ? 'a track without a name' : `track ${printable(track)}`} beyond the keyboard, where nothing plays ${notes === 1 ? 'it' : 'them'}.`,
      'Check the transpose of its rule: -12 is an octave down.',
    ),
  'join-idle': ({ rule, pattern }) =>
    words(
      `The rule ${printable(rule)} joins tracks, and no track is called "${printable(pattern)}".`,
      'Check its spelling; without it the other tracks of the join play alone.',
    ),
  'join-across-files': ({ cue, rule }) =>
    words(
      `Cue ${printable(cue)} has tracks of the rule ${printable(rule)} in several files; only tracks of one file can drive one copy, so each file has a copy of its own.`,
      'Export these tracks into one file if they belong to one copy.',
    ),
};
