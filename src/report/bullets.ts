import { led } from './indent.ts';
import type { Look } from './look.ts';
import type { Paragraph } from './paragraph.ts';

/** A heading with sentences under it, each led by a dash; nothing where there are none. */
export const bullets = (
  heading: string,
  sentences: readonly Paragraph[],
  look: Look,
): readonly string[] =>
  sentences.length === 0
    ? []
    : [look.colors.bold(heading), ...sentences.flatMap((sentence) => led('- ', sentence, look))];
