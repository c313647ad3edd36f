import type { Overview } from '../../overview/overview.ts';
import { toLine } from '../json.ts';
import { Html } from './html.ts';

/**
 * The overview as the page holds it. `<` is written out, so that no name in it can end the element
 * (HTML, section 13.2.5.4); so are the two line separators that JSON allows.
 */
export const pageData = (overview: Overview): Html =>
  new Html(
    `<script type="application/json" id=data>${toLine(overview)
      .replaceAll('<', String.raw`\u003c`)
      .replaceAll('\u2028', String.raw`\u2028`)
      .replaceAll('\u2029', String.raw`\u2029`)}</script>`,
  );
