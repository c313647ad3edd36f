import { wordsOfError, type WordedError } from './error-text.ts';

/** Characters that act on a terminal although JSON allows them as they are (see `printable`). */
const acting = /[\x7f-\x9f\p{Cf}\p{Zl}\p{Zp}]/gu;

const escaped = (character: string): string =>
  Array.from(
    { length: character.length },
    (_, i) => `\\u${character.charCodeAt(i).toString(16).padStart(4, '0')}`,
  ).join('');

/** JSON has no such numbers, and what would be written instead (`null`) means something else. */
const soundNumber = (key: string, value: unknown): unknown => {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new RangeError(`"${key}" is ${String(value)}, which JSON cannot hold`);
  }
  return value;
};

/**
 * A result as JSON text: keys in the order they were made, two spaces a level, a newline at the end.
 * It may go to a terminal: what would act there is escaped, and means the same.
 *
 * @throws RangeError on a number that is not finite: a fault of this program
 */
export const toJson = (value: unknown): string =>
  `${JSON.stringify(value, soundNumber, 2).replace(acting, escaped)}\n`;

/** The same on one line, without a newline at the end. */
export const toLine = (value: unknown): string =>
  JSON.stringify(value, soundNumber).replace(acting, escaped);

export interface ErrorReport {
  readonly schema: 'keepset/error@1';
  readonly error: WordedError;
  /** Further faults of the same file, where there are any. */
  readonly more?: readonly WordedError[];
}

/** An error as JSON output carries it; each message begins with its place, if there is one. */
export const errorReport = (error: unknown): ErrorReport => {
  const [first, ...more] = wordsOfError(error);
  return { schema: 'keepset/error@1', error: first, ...(more.length === 0 ? {} : { more }) };
};

/** {@link errorReport} as JSON text. */
export const errorJson = (error: unknown): string => toJson(errorReport(error));
