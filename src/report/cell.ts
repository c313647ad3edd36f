import { keyName, keyRangeLabel } from '../terms/key.ts';
import { printable } from '../terms/printable.ts';
import type { Range } from '../terms/range.ts';
import { plural } from './format.ts';
import { dots, type Look } from './look.ts';
import { splitWords } from './paragraph.ts';
import { cutMiddle, displayWidth, wrapWords } from './text-width.ts';

/** A cell of a table: what it says in any width. */
export interface Cell {
  /** Everything, on as many lines as it takes: for streams without a width. */
  readonly whole: string;
  /** At most about `width` columns, on one line if it can be; with Infinity all on one line. */
  readonly fit: (width: number) => string;
  readonly paint?: (text: string) => string;
}

/** Longer names are cut even where nothing else is: a file may hold one of 200 000 characters. */
const longestName = 120;

/** Lists longer than this go on below in the same cell where there is no width to obey. */
const widestList = 64;

/** The first of `candidates` that fits, else the last one. */
const firstFit = (candidates: readonly string[], width: number): string =>
  candidates.find((text) => displayWidth(text) <= width) ?? candidates.at(-1) ?? '';

/** A word, a number or a dash: never cut. */
export const fixed = (text: string, paint?: Cell['paint']): Cell => ({
  whole: text,
  fit: () => text,
  ...(paint === undefined ? {} : { paint }),
});

/** The same in less and less room, the shortest last. */
export const shortened = (candidates: readonly string[], paint?: Cell['paint']): Cell => ({
  ...fixed(candidates[0] ?? '', paint),
  fit: (width) => firstFit(candidates, width),
});

/** A name from a file as it can be shown: printable, and neither blank nor without end. */
export const shownName = (text: string, look: Look): string =>
  text.trim() === '' ? '(no name)' : cutMiddle(printable(text), longestName, dots(look));

/** A name from a file, cut in the middle where room is short. */
export const name = (text: string, look: Look): Cell => {
  const whole = shownName(text, look);
  return { whole, fit: (width) => cutMiddle(whole, width, dots(look)) };
};

/** A sentence: goes on below. */
export const words = (text: string): Cell => ({
  whole: text,
  fit: (width) => wrapWords(splitWords(text), width).join('\n'),
});

/** Items side by side, `shorter` ways to say them in less room, the shortest last. */
const list = (items: readonly string[], shorter: readonly string[]): Cell => {
  const listed = items.map((item, i) => (i < items.length - 1 ? `${item},` : item));
  return {
    whole: wrapWords(listed, widestList).join('\n'),
    fit: (width) => firstFit([listed.join(' '), ...shorter], width),
  };
};

/**
 * Keys as ranges with their numbers. Where that takes too much room: from the lowest to the highest
 * with dots between, as not all of them are played.
 */
export const keys = (ranges: readonly Range[], look: Look): Cell => {
  const lo = ranges[0]?.[0];
  const hi = ranges.at(-1)?.[1];
  if (lo === undefined || hi === undefined) return fixed('-');
  const gap = ranges.length === 1 ? '-' : look.ascii ? '..' : '…';
  const numbers = `${String(lo)}${gap}${String(hi)}`;
  const extent = `${keyName(lo, look.middleC)}${gap}${keyName(hi, look.middleC)} (${numbers})`;
  const count = ranges.reduce((sum, [from, to]) => sum + to - from + 1, 0);
  return list(
    ranges.map((range) => keyRangeLabel(range, look.middleC)),
    [`${extent}, ${plural(count, 'key')}`, extent, numbers],
  );
};

/** A list of things to count, in full and in short. */
export interface Several {
  readonly items: readonly { readonly text: string; readonly short: string }[];
  /** What the short forms begin with, once. */
  readonly prefix?: string;
  readonly one: string;
  readonly many: string;
}

/**
 * Items in full; where room is short all of them in their short forms, then the first ones and how
 * many more there are, then only how many.
 */
export const several = ({ items, prefix = '', one, many }: Several): Cell => {
  if (items.length === 0) return fixed('-');
  const short = items.map((item) => item.short);
  const some = items.slice(1).map((_, i) => {
    const shown = short.slice(0, items.length - 1 - i);
    return `${prefix}${shown.join(', ')}, +${String(items.length - shown.length)}`;
  });
  return list(
    items.map(({ text }) => text),
    [`${prefix}${short.join(', ')}`, ...some, plural(items.length, one, many)],
  );
};

/** The lowest and highest of something. */
export const span = (range: Range | null): Cell =>
  fixed(
    range === null
      ? '-'
      : range[0] === range[1]
        ? String(range[0])
        : `${String(range[0])}-${String(range[1])}`,
  );
