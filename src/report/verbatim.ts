import type { Look } from './look.ts';
import { lineMarks } from './markdown/marks.ts';

/** Lines to copy, or a drawing: they stay as they are, in any shape of a report. */
export const verbatim = (lines: readonly string[], { marked }: Look): readonly string[] =>
  marked === true ? lines.map((line) => `${lineMarks.verbatim}${line}`) : lines;
