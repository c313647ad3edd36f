import type { Look } from './look.ts';
import { lineMarks } from './markdown/marks.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/** Narrower than this no sentence reads well; the terminal then breaks the lines. */
const narrowest = 24;

/** A paragraph set in, its first line led by `mark`. */
export const led = (mark: string, parts: Paragraph, { width, marked }: Look): readonly string[] => {
  if (marked === true) {
    const depth = mark.startsWith(' ') ? '1' : '0';
    return paragraph(parts, null).map((line) => `${lineMarks.item}${depth}${mark.trim()} ${line}`);
  }
  const room = width === null ? null : Math.max(width - mark.length, narrowest);
  return paragraph(parts, room).map(
    (line, i) => `${i === 0 ? mark : ' '.repeat(mark.length)}${line}`,
  );
};

/** What stands under a numbered heading. */
export const indent = '   ';
/** A sentence of a list under it. */
export const item = (parts: Paragraph, look: Look): readonly string[] =>
  led(`${indent}- `, parts, look);
