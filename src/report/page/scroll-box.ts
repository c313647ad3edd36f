import { markup, type Html } from './html.ts';

/** A table in a box of its own, which scrolls where the page is narrower: it takes the focus and has a name. */
export const scrollBox = (label: string, table: Html): Html =>
  markup`<div class=w role=region tabindex="0" aria-label="${label}">${table}</div>`;
