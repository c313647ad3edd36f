import type { UsageFile } from '../keep/usage-file/stored.ts';
import { UsageError } from '../terms/errors.ts';
import { toLine } from './json.ts';
import { withMessages } from './messages.ts';

/** More than that can't be read again in one piece. */
const mostLetters = 200 * 2 ** 20;

/**
 * A usage file's text: JSON with a line for each cue file, as there are many numbers in it.
 *
 * @throws {UsageError} when it would be too long
 */
export const usageText = (usage: UsageFile): string => {
  const entries = Object.entries(withMessages(usage)).map(
    ([key, value]) => `  ${toLine(key)}: ${spread(value)}`,
  );
  const letters = entries.reduce((sum, { length }) => sum + length, 0);
  if (letters > mostLetters) {
    throw new UsageError(
      'The usage of so many cues does not fit into one file.',
      'Make several: name some of the cues at a time. keepset plan takes them together.',
    );
  }
  return `{\n${entries.join(',\n')}\n}\n`;
};

/** A value with what it holds on lines of their own. */
const spread = (value: unknown): string => {
  if (typeof value !== 'object' || value === null) return toLine(value);
  const isList = Array.isArray(value);
  const lines = isList
    ? value.map(toLine)
    : Object.entries(value).map(([key, one]) => `${toLine(key)}: ${toLine(one)}`);
  if (lines.length === 0) return isList ? '[]' : '{}';
  const body = lines.map((line) => `    ${line}`).join(',\n');
  return isList ? `[\n${body}\n  ]` : `{\n${body}\n  }`;
};
