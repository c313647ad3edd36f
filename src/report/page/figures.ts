import type { ByteUnit } from '../format.ts';
import { markup, type Html } from './html.ts';
import { bytesIn, formatBytes, signedBytes, signedBytesIn } from './numbers.ts';

/** Bytes in a sentence. The exact number stands in `data-bytes`, beside every rounded one. */
export const amount = (bytes: number): Html =>
  markup`<span data-bytes=${bytes}>${signedBytes(bytes)}</span>`;

/** The same where a name says which figure it is. */
export const figure = (name: string, bytes: number): Html =>
  markup`<span data-figure="${name}" data-bytes=${bytes}>${formatBytes(bytes)}</span>`;

/** Bytes in a column whose title names the unit. */
export const bytesCell = (bytes: number, unit: ByteUnit): Html =>
  markup`<td data-bytes=${bytes}>${signedBytesIn(bytes, unit)}`;

/** The least and the most that something may be, in two columns; empty where it is certain. */
export const betweenCells = (
  { low, high }: { readonly low: number; readonly high: number },
  unit: ByteUnit,
): Html =>
  low === high ? markup`<td><td>` : markup`${bytesCell(low, unit)}${bytesCell(high, unit)}`;

/** Bytes in a column, or a word where there is no figure. */
export const bytesCellOr = (bytes: number | null, unit: ByteUnit, word: string): Html =>
  bytes === null ? markup`<td>${word}` : markup`<td data-bytes=${bytes}>${bytesIn(bytes, unit)}`;
