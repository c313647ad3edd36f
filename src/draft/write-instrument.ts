import { comment } from './comment.ts';
import { describeNames, describeSeen } from './describe-group.ts';
import type { TrackGroup } from './group-tracks.ts';
import { outlinePath, type OutlinesWanted } from './outlines-wanted.ts';
import { see } from './see.ts';
import { quoted } from './yaml-text.ts';

/** What says where an instrument belongs, in a template that asks for it. */
export interface Belonging {
  readonly machine: string | null;
  readonly player: string | null;
}

/** The definition of a new instrument: an outline, or a file that a person has to name. */
const sourceOf = (id: string, outlines: OutlinesWanted | null): string => {
  if (outlines === null) return `file: instruments/${id}.sf2`;
  const path = outlinePath(outlines, id);
  return `outline: ${/^[a-z0-9./][\w./-]*$/iu.test(path) ? path : quoted(path)}`;
};

/** The value of a new instrument on one line. */
export const placeholder = (
  id: string,
  outlines: OutlinesWanted | null,
  { machine, player }: Belonging = { machine: null, player: null },
): string =>
  `{ ${[
    sourceOf(id, outlines),
    ...(machine === null ? [] : [`machine: ${quoted(machine)}`]),
    ...(player === null ? [] : [`player: ${quoted(player)}`]),
  ].join(', ')} }`;

/**
 * What was seen of a group: its tracks, then what they play.
 *
 * @param middleC the octave of key 60
 */
export const seenComments = (
  { tracks }: Pick<TrackGroup, 'tracks'>,
  middleC = 4,
): readonly [names: string, seen: string] => [
  describeNames({ tracks }),
  describeSeen(see(tracks.flatMap(({ parts }) => parts)), middleC),
];

/** A new instrument as an entry of a block of keys. */
export const instrumentLines = (
  id: string,
  comments: readonly string[],
  indent: number,
  outlines: OutlinesWanted | null,
  belonging?: Belonging,
): readonly string[] => [
  ...comments.flatMap((text) => comment(text, indent)),
  `${' '.repeat(indent)}${id}: ${placeholder(id, outlines, belonging)}  # fill in`,
];
