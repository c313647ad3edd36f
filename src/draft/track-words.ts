import { fold } from '../notation/fold.ts';

/** A word of a track's name. */
export interface TrackWord {
  /** Folded; never empty. */
  readonly text: string;
  /** Where it stands in the name: UTF-16 units, `end` not included. */
  readonly start: number;
  readonly end: number;
  /** True for figures. */
  readonly isNumber: boolean;
}

/** Figures; or letters with their marks, where a capital behind a small letter begins a new word. */
const word = /\p{N}+|[\p{Lu}\p{Lt}\p{M}]+[\p{Ll}\p{Lo}\p{Lm}\p{M}]*|[\p{Ll}\p{Lo}\p{Lm}\p{M}]+/gu;

/**
 * The words of a track's name; everything that is neither letter nor figure separates them.
 *
 * @example trackWords('Vln1_conSord').map(({ text }) => text) // ['vln', '1', 'con', 'sord']
 */
export const trackWords = (name: string): readonly TrackWord[] =>
  [...name.matchAll(word)].flatMap((found) => {
    const text = fold(found[0]);
    if (text === '') return [];
    const end = found.index + found[0].length;
    return [{ text, start: found.index, end, isNumber: /^\p{N}/u.test(found[0]) }];
  });
