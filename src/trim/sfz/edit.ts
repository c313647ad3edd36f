/** A stretch of a text, and what stands there afterwards: offsets in UTF-16 units. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly put: string;
}

/** In the order in which they apply: what is put in at a place comes before what goes there. */
export const inOrder = (edits: readonly Edit[]): readonly Edit[] =>
  [...edits].sort((a, b) => a.start - b.start || a.end - b.end);

/** @param edits ascending, none over another */
export const edited = (text: string, edits: readonly Edit[]): string => {
  const pieces: string[] = [];
  let at = 0;
  for (const { start, end, put } of edits) {
    pieces.push(text.slice(at, start), put);
    at = end;
  }
  return pieces.join('') + text.slice(at);
};
