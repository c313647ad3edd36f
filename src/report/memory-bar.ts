import type { Cell } from './cell.ts';
import { formatShare } from './format.ts';
import type { Look } from './look.ts';

/** Columns that a bar takes where there is room, and those below which it tells nothing. */
const widestBar = 24;
export const narrowestBar = 8;

/** Eighths of a column, from one to seven. */
const eighths = ['▏', '▎', '▍', '▌', '▋', '▊', '▉'] as const;

const filled = (columns: number, { ascii }: Look): string => {
  if (ascii) return '#'.repeat(Math.round(columns));
  const inEighths = Math.round(columns * 8);
  return '█'.repeat(Math.floor(inEighths / 8)) + (eighths[(inEighths % 8) - 1] ?? '');
};

/**
 * A share as a bar of text, empty to full; always as long as it may be, so that bars of one column
 * stay on one scale in any width. Where lines are marked, the share itself in per cent.
 *
 * @param value what is drawn; anything above 0 shows
 * @param most what a full bar stands for
 * @param isLimit `most` is a budget: its end is marked
 */
export const barCell = (
  value: number,
  most: number,
  isLimit: boolean,
  look: Look,
  paint?: (text: string) => string,
): Cell => {
  if (look.marked === true) {
    const share = most === 0 ? '' : (formatShare(value, most) ?? '');
    return { whole: share, fit: () => share, ...(paint === undefined ? {} : { paint }) };
  }
  const draw = (columns: number): string => {
    const room = columns - 1;
    const share = most === 0 ? 0 : Math.min(value / most, 1);
    const least = look.ascii ? 1 : 1 / 8;
    const bar = filled(value === 0 ? 0 : Math.max(share * room, least), look);
    return bar.padEnd(room) + (isLimit ? (look.ascii ? '|' : '│') : ' ');
  };
  return {
    whole: draw(widestBar),
    fit: (width) => draw(Math.max(Math.min(width, widestBar), narrowestBar)),
    ...(paint === undefined ? {} : { paint }),
  };
};
