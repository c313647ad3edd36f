import { shownName, type Cell } from './cell.ts';
import { dots, type Look } from './look.ts';
import { splitWords } from './paragraph.ts';
import { cutMiddle, displayWidth, wrapWords } from './text-width.ts';

/** A piece of a phrase: words of the report, or a name from a file, which is cut and never broken. */
export type Piece = string | { readonly name: string };

/** Longer phrases go on below in the same cell, however much room there is. */
const widest = 64;

const pieces = (phrase: readonly Piece[], width: number, look: Look): readonly string[] => {
  const cut = (text: string): string => cutMiddle(text, width, dots(look));
  return phrase.flatMap((piece) => {
    if (typeof piece !== 'string') return [cut(shownName(piece.name, look))];
    return displayWidth(piece) <= width ? [piece] : splitWords(piece).map(cut);
  });
};

/** Pieces one space apart on as many lines as it takes; each holds together where it has room. */
export const phraseCell = (phrase: readonly Piece[], look: Look, paint?: Cell['paint']): Cell => {
  const fit = (width: number): string => {
    const room = Math.min(width, widest);
    return wrapWords(pieces(phrase, room, look), room).join('\n');
  };
  return { whole: fit(widest), fit, ...(paint === undefined ? {} : { paint }) };
};

/** What a person wrote, as words that may go on below. */
export const writtenWords = (text: string, look: Look): readonly Piece[] =>
  shownName(text, look).split(/ +/u);

/** Some phrases, each on a line of its own. */
export const stackedCell = (phrases: readonly (readonly Piece[])[], look: Look): Cell => {
  const cells = phrases.map((phrase) => phraseCell(phrase, look));
  return {
    whole: cells.map(({ whole }) => whole).join('\n'),
    fit: (width) => cells.map(({ fit }) => fit(width)).join('\n'),
  };
};

/** Commas between items. */
export const withCommas = (items: readonly string[]): readonly string[] =>
  items.map((item, i) => (i < items.length - 1 ? `${item},` : item));
