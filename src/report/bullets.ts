import type { Look } from './look.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/** A heading with sentences under it, each led by a dash; nothing where there are none. */
export const bullets = (
  heading: string,
  sentences: readonly Paragraph[],
  { colors, width }: Look,
): readonly string[] => {
  if (sentences.length === 0) return [];
  const room = width === null ? null : Math.max(width - 2, 20);
  return [
    colors.bold(heading),
    ...sentences.flatMap((sentence) =>
      paragraph(sentence, room).map((line, i) => `${i === 0 ? '-' : ' '} ${line}`),
    ),
  ];
};
