/** Hyphens, figure dash, en and em dash, minus: what word processors and spreadsheets put for `-`. */
const dashes = /[\u2010-\u2014\u2212]/gu;

/**
 * Figures as they were meant before a spreadsheet dressed them up: every run of white space, with
 * non-breaking and thin spaces, is one space, none stand at the ends, and every dash is `-`.
 *
 * @example tidy('\u00a01 – 40 ') // '1 - 40'
 */
export const tidy = (text: string): string =>
  text.replace(/\s+/gu, ' ').trim().replace(dashes, '-');
