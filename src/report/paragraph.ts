import { displayWidth } from './text-width.ts';

/** A run of words, painted or not. Runs are set one space apart. */
export type Part = string | { readonly text: string; readonly paint: (text: string) => string };

export type Paragraph = readonly Part[];

/** Spaces inside a number (`1 203`) and between a number and its unit hold together. */
const breakable = /(?<!\d) +| +(?!\d{3}(?!\d)|[KMG]?i?B(?!\w)|%)/;

/** Words of a sentence: where a line may end. */
export const splitWords = (text: string): readonly string[] => text.split(breakable);

/** Sets a paragraph on lines of at most `width` columns, with null on one. */
export const paragraph = (parts: Paragraph, width: number | null): readonly string[] => {
  const runs = parts.map((part) => (typeof part === 'string' ? { text: part, paint: null } : part));
  if (width === null) {
    return [runs.map(({ text, paint }) => (paint === null ? text : paint(text))).join(' ')];
  }
  const lines: string[] = [];
  let used = Infinity;
  for (const { text, paint } of runs) {
    for (const word of splitWords(text)) {
      const painted = paint === null ? word : paint(word);
      const room = displayWidth(word);
      if (used + 1 + room <= width) {
        lines.push(`${lines.pop() ?? ''} ${painted}`);
        used += 1 + room;
      } else {
        lines.push(painted);
        used = room;
      }
    }
  }
  return lines;
};
