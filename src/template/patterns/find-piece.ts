/** As much of a string as a search needs. */
export interface Letters {
  readonly length: number;
  charCodeAt(index: number): number;
}

/**
 * For each place in `piece` the length of the longest proper start of `piece` that ends there: how
 * far a search may go on without looking at the text again (Knuth, Morris and Pratt, "Fast pattern
 * matching in strings", 1977).
 */
export const bordersOf = (piece: Letters): Uint16Array => {
  const borders = new Uint16Array(piece.length);
  let border = 0;
  for (let at = 1; at < piece.length; at += 1) {
    while (border > 0 && piece.charCodeAt(at) !== piece.charCodeAt(border)) {
      border = borders[border - 1]!;
    }
    if (piece.charCodeAt(at) === piece.charCodeAt(border)) border += 1;
    borders[at] = border;
  }
  return borders;
};

/**
 * The first place at or behind `from` where `piece` stands in `text`, or -1. Looks once at each
 * character of the text and at most three times as often at the piece, whatever the two are.
 */
export const findPiece = (
  text: Letters,
  piece: Letters,
  borders: Uint16Array,
  from: number,
): number => {
  if (piece.length === 0) return from;
  let found = 0;
  for (let at = from; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    while (found > 0 && code !== piece.charCodeAt(found)) found = borders[found - 1]!;
    if (code === piece.charCodeAt(found)) found += 1;
    if (found === piece.length) return at - piece.length + 1;
  }
  return -1;
};
