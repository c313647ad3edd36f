/** Unicode general category M: marks that combine with the letter before them. */
const marks = /\p{M}+/gu;

/**
 * Dashes and quotation marks that word processors and exports put for the plain ones (Unicode, General
 * Punctuation U+2010 to U+201F, and the minus sign U+2212). Each is one code unit, as is its plain form.
 */
const plainForms = [
  [/[\u2010-\u2015\u2212]/gu, '-'],
  [/[\u2018-\u201b]/gu, "'"],
  [/[\u201c-\u201f]/gu, '"'],
] as const;

const withPlainForms = (text: string): string =>
  plainForms.reduce((plain, [signs, sign]) => plain.replace(signs, sign), text);

/**
 * What names of tracks, articulations and columns are compared by: canonically decomposed (Unicode
 * normalization form D), without combining marks, in lower case, dashes and curly quotation marks as
 * the plain ones, every run of white space as one space, without blanks at the ends. Takes linear time.
 *
 * @example fold('  Große\u00a0Trommel ') // 'große trommel'
 * @example fold('Célesta') // 'celesta'
 * @example fold('Vln 1 – Legato') // 'vln 1 - legato'
 */
export const fold = (text: string): string =>
  withPlainForms(text)
    // Before decomposing too: a decomposer sorts a run of marks, and a long run would take it long.
    .replace(marks, '')
    .normalize('NFD')
    .replace(marks, '')
    .toLowerCase()
    .replace(/\s+/gu, ' ')
    .trim();
