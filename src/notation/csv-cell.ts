import type { Delimiter } from './csv-delimiter.ts';

/** What makes a spreadsheet take a text for a formula, and what it skips before it looks. */
const formula = /^[=+\-@\t\r]/u;

/**
 * A text that does nothing where a table is opened: what would be a formula is led by an apostrophe.
 *
 * @example defused('=1+1') // "'=1+1"
 */
export const defused = (text: string): string => (formula.test(text) ? `'${text}` : text);

/** A text as it was before {@link defused}. @example undefused("'=1+1") // '=1+1' */
export const undefused = (text: string): string =>
  text.startsWith("'") && formula.test(text.slice(1)) ? text.slice(1) : text;

/**
 * A text as a cell of a table (RFC 4180), in quotation marks where it holds what divides cells and rows.
 *
 * @param keepsBlanks blanks at its ends are quoted too: readers take them away else
 */
export const csvCell = (text: string, delimiter: Delimiter, keepsBlanks = false): string =>
  text.includes(delimiter) || /["\r\n]/u.test(text) || (keepsBlanks && text !== text.trim())
    ? `"${text.replaceAll('"', '""')}"`
    : text;
