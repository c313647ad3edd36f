import { printable } from '../terms/printable.ts';
import { tidy } from './tidy.ts';

/** Numbers as a person lists them, and what of the list can't be read. */
export interface NumberList {
  /** Ascending, each once. */
  readonly numbers: readonly number[];
  /** A sentence that names all parts of the list that are no number and no range; null: there are none. */
  readonly fault: string | null;
}

/** Parts that are named. */
const mostNamed = 10;

/** More than this are no list that a person means; nor is a larger number. */
const mostNumbers = 100_000;
const largest = 999_999_999;

const range = /^(\d{1,9})(?: ?(?:-|\.\.) ?(\d{1,9}))?$/u;

/**
 * Numbers from 1 up, and ranges of them, divided by commas or semicolons.
 *
 * @example parseNumberList('3-5, 12') // { numbers: [3, 4, 5, 12], fault: null }
 */
export const parseNumberList = (text: string): NumberList => {
  const numbers = new Set<number>();
  const faults: string[] = [];
  for (const part of text.split(/[,;]/u)) {
    const [, from, to = from] = range.exec(tidy(part)) ?? [];
    const [lo, hi] = [Number(from), Number(to)];
    // Also false where there is no number at all.
    if (!(lo >= 1 && lo <= hi && hi <= largest && numbers.size + hi - lo < mostNumbers)) {
      faults.push(part.trim());
      continue;
    }
    for (let number = lo; number <= hi; number++) numbers.add(number);
  }
  return { numbers: [...numbers].sort((a, b) => a - b), fault: faultOf(faults) };
};

const faultOf = (parts: readonly string[]): string | null => {
  if (parts.length === 0) return null;
  const named = parts.slice(0, mostNamed).map((part) => `"${printable(part).slice(0, 40)}"`);
  const more = parts.length - named.length;
  const all = `${named.join(', ')}${more > 0 ? ` and ${String(more)} more` : ''}`;
  return `Not a number from 1 up, or a range of them: ${all}. Write it such as 3-7,12.`;
};
