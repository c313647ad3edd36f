import { compareNatural } from './natural-order.ts';

/** A cue number as film music writes it: `3m02A` is reel 3, cue 2, suffix `A`. */
export interface CueNumber {
  readonly reel: number;
  readonly cue: number;
  /** As written; empty when there is none. */
  readonly suffix: string;
}

/** What the name of a file says of its cue. */
export interface CueName {
  /** Null when the name holds no cue number. */
  readonly number: CueNumber | null;
  readonly title: string | null;
  readonly version: number | null;
  /** Number and suffix as written with a small `m`, and ` v3` for version 3; else the path. */
  readonly id: string;
}

/** A path without the extension of a MIDI file. */
export const withoutExtension = (path: string): string => path.replace(extension, '');

const extension = /\.(?:mid|midi|smf|rmi|kar)$/i;

/**
 * `1m2`, `2m07`, `1m2alt`, `1m2v3`: not inside a word or a longer number. A suffix has at most four
 * letters, so that a title written right behind the number stays a title, and ends before a version.
 */
const cueNumber =
  /(?<![a-z0-9])(\d{1,4})m(\d{1,4})((?:(?!v\d)[a-z]){1,4}\d{0,2}(?![a-z0-9])|(?:(?!v\d)[a-z]){1,4}(?=v\d)|)(?!\d)/i;

/** A version of its own: `v3`, not `v3.1` and not `rev3`. */
const versionWord = /(?<![a-z0-9])v(\d{1,6})(?![a-z0-9]|\.\d)/gi;

const tidy = (text: string): string | null => {
  const title = text.replace(/[\s_]+/g, ' ').replace(/^[\s\-–—.,()[\]]+|[\s\-–—.,()[\]]+$/g, '');
  return title === '' ? null : title;
};

/**
 * Reads a cue name from a path: `cues/1m2 Harbour v3.mid` is cue 1m2, "Harbour", version 3. Words
 * before the number (a short name of the show) are not part of the title.
 *
 * @param path with `/` between folders; without a cue number it is the id, less its extension
 */
export const parseCueName = (path: string): CueName => {
  const bare = withoutExtension(path);
  const name = bare.slice(bare.lastIndexOf('/') + 1);
  const found = cueNumber.exec(name);
  const rest = found === null ? name : name.slice(found.index + found[0].length);
  const word = [...rest.matchAll(versionWord)].at(-1);
  const version = word === undefined ? null : Number(word[1]);
  const words =
    word === undefined
      ? rest
      : `${rest.slice(0, word.index)} ${rest.slice(word.index + word[0].length)}`;
  const title = tidy(words);
  if (found === null) return { number: null, title, version, id: bare };
  const [, reel = '', cue = '', suffix = ''] = found;
  return {
    number: { reel: Number(reel), cue: Number(cue), suffix },
    title,
    version,
    id: `${reel}m${cue}${suffix}${version === null ? '' : ` v${String(version)}`}`,
  };
};

/** The id of a cue less its version: what its versions have in common. @example withoutVersion('1m2 v3') // '1m2' */
export const withoutVersion = (id: string): string => id.replace(/ v\d+$/, '');

/**
 * The natural order of a reel: by reel, cue, suffix and version, numbers as numbers; names without
 * a cue number last, by path. Two names are equal only when id and title are; no locale is asked.
 */
export const compareCues = (a: CueName, b: CueName): number => {
  if (a.number !== null && b.number !== null) {
    const byNumber =
      a.number.reel - b.number.reel ||
      a.number.cue - b.number.cue ||
      compareNatural(a.number.suffix, b.number.suffix);
    if (byNumber !== 0) return byNumber;
  } else if (a.number !== null || b.number !== null) return a.number === null ? 1 : -1;
  // With number and suffix alike, the order of ids is that of versions: none, v1, v2, v10.
  return compareNatural(a.id, b.id) || compareNatural(a.title ?? '', b.title ?? '');
};
