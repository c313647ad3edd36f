import { fold } from '../../notation/fold.ts';

/** A text as names are compared, and where each of its characters comes from. */
export interface FoldedText {
  readonly text: string;
  readonly folded: string;
  /** For each code unit of `folded` where in `text` it begins and ends; marks go with their letter. */
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/**
 * One character folded; white space is a space. The small sigma has a form for the end of a word,
 * which character by character can't be told: both are the same here.
 */
const foldLetter = (letter: string): string =>
  /^\s$/u.test(letter) ? ' ' : fold(letter).replaceAll('ς', 'σ');

const ascii = Array.from({ length: 128 }, (_, code) => foldLetter(String.fromCharCode(code)));

/** Folds character by character, as `fold` does, but leaves one space at an end that has some. */
const foldLoose = (text: string): FoldedText => {
  const [from, to]: [number[], number[]] = [[], []];
  let folded = '';
  let at = 0;
  for (const letter of text) {
    const end = at + letter.length;
    const piece = ascii[letter.charCodeAt(0)] ?? foldLetter(letter);
    if (piece === '' || (piece === ' ' && folded.endsWith(' '))) {
      if (to.length > 0) to[to.length - 1] = end;
    } else {
      folded += piece;
      while (from.length < folded.length) {
        from.push(at);
        to.push(end);
      }
    }
    at = end;
  }
  return { text, folded, from, to };
};

/** Part of a pattern, folded; a blank at an end stays, as it may stand beside a wildcard. */
export const foldPiece = (text: string): string => foldLoose(text).folded;

/** A name as `fold` makes it (the two small sigmas are one), with the way back. Takes linear time. */
export const foldName = (text: string): FoldedText => {
  const loose = foldLoose(text);
  const start = loose.folded.startsWith(' ') ? 1 : 0;
  const end = loose.folded.length - (loose.folded.endsWith(' ') ? 1 : 0);
  if (start === 0 && end === loose.folded.length) return loose;
  return {
    text,
    folded: loose.folded.slice(start, end),
    from: loose.from.slice(start, end),
    to: loose.to.slice(start, end),
  };
};

/** What stands in the text for the folded characters from `start` up to `end`, without blanks around. */
export const asWritten = ({ text, from, to }: FoldedText, start: number, end: number): string =>
  start >= end ? '' : text.slice(from[start], to[end - 1]).trim();
