import type { CueMoment } from '../keep/reel/reel-memory.ts';
import type { Figure } from '../memory/figure.ts';
import { fixed, shortened, type Cell } from './cell.ts';
import { bytesIn, formatBytes, formatCount, formatDuration, type ByteUnit } from './format.ts';
import type { Look } from './look.ts';
import { paragraph } from './paragraph.ts';

/** How long loading takes, in a sentence. @example loadTime(4.2) // 'about 4 seconds' */
export const loadTime = (seconds: number): string => {
  const whole = Math.round(seconds);
  if (whole === 0) return seconds === 0 ? 'no time' : 'less than a second';
  if (whole === 1) return 'about a second';
  return whole < 60
    ? `about ${String(whole)} seconds`
    : `about ${formatDuration(whole)} ${whole < 3600 ? 'minutes' : 'hours'}`;
};

/** How long loading takes, in a table; `?` where it is not known. */
export const loadTimeCell = (seconds: number | null): Cell =>
  fixed(seconds === null ? '?' : seconds > 0 && seconds < 0.5 ? '<0:01' : formatDuration(seconds));

/** Bytes with their range, in a sentence. @example figureWords(figure) // '2.1 GiB (1.9 GiB to 2.4 GiB)' */
export const figureWords = ({ bytes, low, high }: Figure): string => {
  const [least, most] = [formatBytes(low), formatBytes(high)];
  return least === most ? formatBytes(bytes) : `${formatBytes(bytes)} (${least} to ${most})`;
};

export const hasRange = ({ low, high }: Pick<Figure, 'low' | 'high'>): boolean => low !== high;

/** The range of a figure, in whole units where room is short; empty where it is certain. */
export const betweenCell = (figure: Figure, { size, ...unit }: ByteUnit): Cell => {
  const { low, high } = figure;
  if (!hasRange(figure)) return fixed('');
  return shortened([
    `${bytesIn(low, { size, ...unit })}-${bytesIn(high, { size, ...unit })}`,
    `${formatCount(Math.floor(low / size))}-${formatCount(Math.ceil(high / size))}`,
  ]);
};

/** A moment as people look it up. @example momentWords(moment) // '12.3 (0:34)' */
export const momentWords = ({ bar, beat, seconds }: CueMoment): string =>
  `${String(bar)}.${String(Math.floor(beat))} (${formatDuration(seconds)})`;

/** The largest, 0 of none. */
export const largestOf = (numbers: readonly number[]): number =>
  numbers.reduce((most, number) => Math.max(most, number), 0);

/** Says what a question mark in place of a time means. */
export const noRate = (seconds: readonly (number | null)[], look: Look): readonly string[] =>
  seconds.includes(null)
    ? paragraph(['?: not known, as a player has no load-rate.'], look.width).map((line) =>
        look.colors.dim(line),
      )
    : [];
