import type { Said } from '../said/said.ts';
import { amount, figure } from './figures.ts';
import { joined, markup, type Html } from './html.ts';
import { named } from './names.ts';
import { inRanges } from './numbers.ts';

/** A sentence on the page. */
export const saidHtml = (said: Said): Html =>
  joined(
    said.map((piece) => {
      if (typeof piece === 'string') return inRanges(piece);
      if ('name' in piece) return named(piece.name);
      if ('command' in piece) return markup`<code>${piece.command}</code>`;
      if ('step' in piece) {
        return piece.isListed
          ? markup`<a href="#w${piece.step}">${piece.step}</a>`
          : markup`${piece.step}`;
      }
      return piece.figure === undefined ? amount(piece.bytes) : figure(piece.figure, piece.bytes);
    }),
    '',
  );
