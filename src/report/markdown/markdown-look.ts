import type { Look } from '../look.ts';
import { markColors } from './marks.ts';

/** The look of a report from which {@link toMarkdown} makes Markdown: nothing cut, all marked. */
export const markdownLook = (look: Look): Look => ({
  ...look,
  colors: markColors,
  width: null,
  marked: true,
});
