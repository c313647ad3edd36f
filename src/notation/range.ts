import type { Range } from '../terms/range.ts';
import { parseKey } from './key.ts';
import { parseList } from './list.ts';
import { tidy } from './tidy.ts';

const numbers = /^(\d{1,3})(?: ?(?:\.\.|-) ?(\d{1,3}))?$/u;
const names = /^([a-g] ?[#♯b♭♮]? ?-?\d{1,2})(?: ?(?:\.\.|-) ?([a-g] ?[#♯b♭♮]? ?-?\d{1,2}))?$/iu;

const ascending = (lo: number | null, hi: number | null): Range | null =>
  lo === null || hi === null || lo > hi ? null : [lo, hi];

/**
 * A range of velocities, programs or controller values: `1-40`, `1..40`, or a single one.
 *
 * @returns within 0-127, the lower end first; null when it cannot be read
 * @example parseRange('1–40') // [1, 40]
 */
export const parseRange = (text: string): Range | null => {
  const [, lo, hi = lo] = numbers.exec(tidy(text)) ?? [];
  if (lo === undefined || hi === undefined || Number(hi) > 127) return null;
  return ascending(Number(lo), Number(hi));
};

/**
 * A range of keys, by names or by numbers: `C2-C6`, `C-1..G9`, `36-84`, or a single key. Not mixed:
 * `C2-6` is as likely short for `C2-C6`.
 *
 * @param middleC the octave that key 60 bears
 * @returns within 0-127, the lower key first; null when it cannot be read
 * @example parseKeyRange('C-1..G9', 4) // [0, 127]
 */
export const parseKeyRange = (text: string, middleC: number): Range | null => {
  const [, lo, hi = lo] = names.exec(tidy(text)) ?? [];
  if (lo === undefined || hi === undefined) return parseRange(text);
  return ascending(parseKey(lo, middleC), parseKey(hi, middleC));
};

/** Ranges of `step` keys from the bottom; the last is cut at the top. */
const everyFew = ([lo, hi]: Range, step: number): readonly Range[] =>
  Array.from({ length: Math.ceil((hi - lo + 1) / step) }, (_, i) => [
    lo + i * step,
    Math.min(hi, lo + (i + 1) * step - 1),
  ]);

/**
 * Ranges of keys, divided by `|`. `C2..C6 every 3` stands for ranges of three keys from the bottom,
 * the last one cut at the top: an instrument sampled in minor thirds.
 *
 * @returns in the order written; null when one cannot be read
 * @example parseKeyRanges('C4-E4 every 2', 4) // [[60, 61], [62, 63], [64, 64]]
 */
export const parseKeyRanges = (text: string, middleC: number): readonly Range[] | null =>
  parseList(text, '|', (item) => {
    const tidied = tidy(item);
    const every = / every (\d{1,3})$/iu.exec(tidied);
    const range = parseKeyRange(every === null ? item : tidied.slice(0, every.index), middleC);
    if (range === null || every === null) return range === null ? null : [range];
    const step = Number(every[1]);
    return step === 0 ? null : everyFew(range, step);
  })?.flat() ?? null;

/**
 * Ranges of velocities, divided by `|`.
 *
 * @returns in the order written; null when one cannot be read
 * @example parseRanges('1-40|41-127') // [[1, 40], [41, 127]]
 */
export const parseRanges = (text: string): readonly Range[] | null =>
  parseList(text, '|', parseRange);
