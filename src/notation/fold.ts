/** Unicode general category M: marks that combine with the letter before them. */
const marks = /\p{M}+/gu;

/**
 * What names of tracks, articulations and columns are compared by: canonically decomposed (Unicode
 * normalization form D), without combining marks, in lower case, every run of white space as one
 * space, without blanks at the ends. Takes linear time.
 *
 * @example fold('  Große\u00a0Trommel ') // 'große trommel'
 * @example fold('Célesta') // 'celesta'
 */
export const fold = (text: string): string =>
  text
    // Before decomposing too: a decomposer sorts a run of marks, and a long run would take it long.
    .replace(marks, '')
    .normalize('NFD')
    .replace(marks, '')
    .toLowerCase()
    .replace(/\s+/gu, ' ')
    .trim();
