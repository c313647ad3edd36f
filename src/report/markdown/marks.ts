import type { Colors } from '../colors.ts';

/**
 * Marks in a report that is to become Markdown. All are control characters, which names from files
 * never hold: those are made printable first. They stand for structure that a terminal shows by
 * place and colour, so that nothing has to be guessed from the text.
 */

/** What a line is; the first character of it. Lines without one are sentences or headings. */
export const lineMarks = {
  /** Headings of a table; each cell begins with `l` or `r`, the side it is set to. */
  head: '\x01',
  row: '\x02',
  rule: '\x03',
  /** A sentence of a list; then its depth as a digit, and how it is led. */
  item: '\x04',
  /** To be copied, or drawn with characters of one width. */
  verbatim: '\x05',
} as const;

/** Between two cells. */
export const cellMark = '\x06';

/** Where paint begins; `stress` is what a reader must not miss, `quiet` what is better left plain. */
export const paintMarks = { bold: '\x0e', stress: '\x0f', good: '\x10', quiet: '\x11' } as const;

/** Where the paint that began last ends. */
export const paintEnd = '\x12';

const painter =
  (mark: string) =>
  (text: string): string =>
    `${mark}${text}${paintEnd}`;

/** Colours as marks. */
export const markColors: Colors = {
  bold: painter(paintMarks.bold),
  dim: painter(paintMarks.quiet),
  red: painter(paintMarks.stress),
  yellow: painter(paintMarks.stress),
  green: painter(paintMarks.good),
  cyan: painter(paintMarks.quiet),
};
