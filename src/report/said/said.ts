import { formatCount } from '../format.ts';

/**
 * A piece of a sentence that the page and the text of a report both tell: words of ours, a name from a
 * file, bytes (`figure`: which one of the overview it is), a command, or the number of a step
 * (`isListed`: the worklist of the page has it). Each writer shows it its own way.
 */
export type SaidPiece =
  | string
  | { readonly name: string }
  | { readonly bytes: number; readonly figure?: string }
  | { readonly command: string }
  | { readonly step: number; readonly isListed: boolean };

export type Said = readonly SaidPiece[];

/** Words side by side become one, so that a writer sees a number together with its unit. */
const merged = (pieces: Said): Said => {
  const all: SaidPiece[] = [];
  for (const piece of pieces) {
    const last = all.at(-1);
    if (typeof piece === 'string' && typeof last === 'string') all[all.length - 1] = last + piece;
    else if (piece !== '') all.push(piece);
  }
  return all;
};

/**
 * A sentence from a template.
 *
 * @example said`Machine ${{ name: 'a' }} has ${{ bytes: 1024 }} to spare.`
 */
export const said = (
  strings: TemplateStringsArray,
  ...values: readonly (SaidPiece | Said)[]
): Said =>
  merged(
    strings.flatMap((string, i): Said => {
      const value = i === 0 ? '' : (values[i - 1] ?? '');
      return [...(Array.isArray(value) ? (value as Said) : [value as SaidPiece]), string];
    }),
  );

/** A sentence that begins with a word of ours, with a capital. */
export const capital = ([first = '', ...rest]: Said): Said =>
  typeof first === 'string'
    ? [first.slice(0, 1).toUpperCase() + first.slice(1), ...rest]
    : [first, ...rest];

/** Some sentences, or parts of one, with something between each two. */
export const joinedSaid = (all: readonly Said[], between: string): Said =>
  merged(all.flatMap((one, i) => (i === 0 ? one : [between, ...one])));

/** Names in a row; those beyond `most` are only counted. */
export const listedSaid = (names: readonly string[], most = 12): Said => {
  const rest = names.length - most;
  const first = joinedSaid(
    names.slice(0, most).map((name) => [{ name }]),
    ', ',
  );
  return rest > 0 ? said`${first} and ${formatCount(rest)} more` : first;
};
