import * as plain from '../format.ts';
import type { ByteUnit } from '../format.ts';
import { signedBytes as plainSigned, signedBytesIn as plainSignedIn } from '../worklist-words.ts';
import { markup, type Html } from './html.ts';

/** Numbers as everywhere in reports, in lines that break where the window ends: their parts hold together. */

/** Thousands and a unit stay with their number. Only the space is another: it reads the same. */
export const held = (text: string): string =>
  text.replace(/(?<=\d) (?=\d{3}(?!\d)|(?:[KMG]i)?B\b|%)/g, '\u00a0');

export const formatCount = (count: number): string => held(plain.formatCount(count));

export const plural = (count: number, one: string, many?: string): string =>
  held(plain.plural(count, one, many));

export const formatBytes = (bytes: number): string => held(plain.formatBytes(bytes));

export const bytesIn = (bytes: number, unit: ByteUnit): string => held(plain.bytesIn(bytes, unit));

export const signedBytes = (bytes: number): string => held(plainSigned(bytes));

export const signedBytesIn = (bytes: number, unit: ByteUnit): string =>
  held(plainSignedIn(bytes, unit));

export const formatShare = (part: number, whole: number): string | null => {
  const share = plain.formatShare(part, whole);
  return share === null ? null : held(share);
};

/** Keys with their numbers, other ranges of numbers, and places. */
const ranges = /([A-G]#?-?\d+(?:-[A-G]#?-?\d+)? \(\d+(?:-\d+)?\)|\b\d+-\d+\b|\bbar \d+ beat \d+\b)/;

/** Words made here, in which no range breaks. @example inRanges('C2-C5 (36-72); up to ff') */
export const inRanges = (words: string): Html =>
  markup`${words
    .split(ranges)
    .map((part, i) => (i % 2 === 1 ? markup`<span class=nb>${part}</span>` : held(part)))}`;
