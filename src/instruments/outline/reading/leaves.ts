import { leaf } from '../../../notation/document/leaves.ts';
import { parseSeconds } from '../../../notation/duration.ts';
import { parseKey } from '../../../notation/key.ts';
import { parseList } from '../../../notation/list.ts';
import { parseNumber } from '../../../notation/number.ts';
import { parseKeyRange, parseKeyRanges, parseRange, parseRanges } from '../../../notation/range.ts';
import { parseSwitch } from '../../../notation/switch.ts';
import { numbersIn, type Range } from '../../../terms/range.ts';
import type { Choice } from '../outline.ts';

/**
 * Seconds of the longest sample, hertz of the fastest, most channels: so that one is no larger than in a
 * zone table (2^35 bytes), and the sum of the most zones there may be is exact.
 */
const longest = 600;
const rates: Range = [1_000, 400_000];
export const mostChannels = 32;

/** Single values of an outline. Those with keys in them are told the octave of key 60. */

export const switchOf = (middleC: number) =>
  leaf('switch', [], ({ text }): Choice | null => {
    if (text.trim().toLowerCase() === 'none') return { kind: 'none' };
    const test = parseSwitch(text, middleC);
    return test === null ? null : { kind: 'switch', test };
  });

/** One key. */
export const key = (middleC: number) => leaf('key', [], ({ text }) => parseKey(text, middleC));

/** Ranges of keys in one text, divided by `|`. */
export const keyRanges = (middleC: number) =>
  leaf('key-ranges', [], ({ text }) =>
    parseList(text, '|', (item) => parseKeyRange(item, middleC)),
  );

/** From a key to a higher one: what stands for a whole articulation has to say both. */
export const playingRange = (middleC: number) =>
  leaf('articulation', [], ({ text }): readonly Range[] | null => {
    const range = parseKeyRange(text, middleC);
    return range === null || range[0] === range[1] ? null : [range];
  });

/** Keys in one text: `C2..C6 every 3` is each third key from the lowest on, `C2-C6` is each. */
export const sampledKeys = (middleC: number) =>
  leaf('sampled', [], ({ text }): readonly number[] | null => {
    const items = parseList(text, '|', (item) => {
      const ranges = parseKeyRanges(item, middleC);
      if (ranges === null) return null;
      if (/\bevery\b/iu.test(item)) return ranges.map(([lo]) => lo);
      return ranges.flatMap(numbersIn);
    });
    return items?.flat() ?? null;
  });

/** The values of one layer. */
export const border = leaf('values', [], ({ text }) => parseRange(text));

/** The values of layers in one text, divided by `|`. */
export const borders = leaf('layer-values', [], ({ text }) => parseRanges(text));

/** Seconds: a number, or a length with its unit; above 0. */
const secondsIn = (text: string): number | null => {
  const length = parseNumber(text) ?? parseSeconds(text);
  return length !== null && length > 0 && length <= longest ? length : null;
};

export const seconds = leaf('length', [], ({ text }) => secondsIn(text));

/** Seconds, with a unit; may be 0. */
export const overlap = leaf('overlap', [], ({ text }) => {
  const length = parseSeconds(text);
  return length !== null && length <= 10 ? length : null;
});

/** Hertz: a whole number, or with Hz or kHz. */
export const rate = leaf('rate', [], ({ text }) => {
  const [, figure = '', kilo] = /^(.*?)\s*(?:(k)?hz)?$/iu.exec(text.trim()) ?? [];
  const number = parseNumber(figure);
  if (number === null) return null;
  const hertz = kilo === undefined ? number : Math.round(number * 1000);
  return Number.isInteger(hertz) && hertz >= rates[0] && hertz <= rates[1] ? hertz : null;
});

export const bits = leaf('bits', [], ({ text }) => {
  const figure = /^(8|16|24|32)(?:[ -]?bits?)?$/iu.exec(text.trim())?.[1];
  return figure === undefined ? null : Number(figure);
});

/** YAML 1.2 knows true and false; people write yes and no. */
export const yesOrNo = leaf('choice', ['yes', 'no'], ({ text }) => {
  const word = text.trim().toLowerCase();
  if (word === 'yes' || word === 'true') return true;
  return word === 'no' || word === 'false' ? false : null;
});

/** `yes`, `no`, or how long they are. */
export const yesOrLength = leaf('releases', [], ({ text }) => {
  const word = text.trim().toLowerCase();
  if (word === 'yes' || word === 'true') return true;
  if (word === 'no' || word === 'false') return false;
  return secondsIn(text);
});

/** How many keys are down; 1 is the one that is struck. */
export const held = leaf('held', [], ({ text }) => {
  const range = parseRange(text);
  return range === null || range[0] === 0 ? null : range;
});

export const playerDecides = leaf('when', [], ({ text }) =>
  text === 'player-decides' ? ('player' as const) : null,
);
