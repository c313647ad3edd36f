import { asWritten, foldName, type FoldedText } from './folded-name.ts';
import { bordersOf, findPiece } from './find-piece.ts';
import type { Pattern } from './pattern.ts';

/** Names are looked at up to here, in UTF-16 code units: longer ones are no names. */
export const longestName = 2_000;

/** A name ready to be matched by many patterns. */
export const prepareName = (name: string): FoldedText => foldName(name.slice(0, longestName));

/** Made when a pattern first searches. */
const bordersByPattern = new WeakMap<Pattern, readonly Uint16Array[]>();

const bordersIn = (pattern: Pattern): readonly Uint16Array[] => {
  let borders = bordersByPattern.get(pattern);
  if (borders === undefined) {
    borders = pattern.pieces.map(bordersOf);
    bordersByPattern.set(pattern, borders);
  }
  return borders;
};

/**
 * Where each wildcard begins and ends in the folded name; null when the pattern does not match. To
 * take each middle piece where it first stands is enough: if the rest matches behind a later one, it
 * does behind the first.
 */
const wildcardsIn = (
  pattern: Pattern,
  name: string,
): readonly (readonly [number, number])[] | null => {
  const { pieces } = pattern;
  const first = pieces[0]!;
  if (pieces.length === 1) return name === first ? [] : null;
  const last = pieces.at(-1)!;
  const end = name.length - last.length;
  if (!name.startsWith(first) || !name.endsWith(last)) return null;
  const wildcards: [number, number][] = [];
  let at = first.length;
  if (pieces.length > 2) {
    const borders = bordersIn(pattern);
    for (let i = 1; i < pieces.length - 1; i += 1) {
      const found = findPiece(name, pieces[i]!, borders[i]!, at);
      if (found < 0) return null;
      wildcards.push([at, found]);
      at = found + pieces[i]!.length;
    }
  }
  if (at > end) return null;
  wildcards.push([at, end]);
  return wildcards;
};

/** {@link matchPattern} for a name that was prepared before. */
export const matchPrepared = (
  pattern: Pattern,
  name: FoldedText,
): ReadonlyMap<string, string> | null => {
  const wildcards = wildcardsIn(pattern, name.folded);
  if (wildcards === null) return null;
  const captured = new Map<string, string>();
  wildcards.forEach(([from, to], i) => {
    const capture = pattern.captures[i];
    if (typeof capture === 'string') captured.set(capture, asWritten(name, from, to));
  });
  return captured;
};

/**
 * Matches a whole name. Each wildcard but the last takes as little as it can, the first one first.
 * Takes time in proportion to the lengths of both. Names count up to 2 000 characters.
 *
 * @returns what the captures hold, as the name spells it, without blanks around; null: no match
 * @example matchPattern(compilePattern('Vc {art}'), 'VC  Légato') // Map { 'art' => 'Légato' }
 */
export const matchPattern = (pattern: Pattern, name: string): ReadonlyMap<string, string> | null =>
  matchPrepared(pattern, prepareName(name));
