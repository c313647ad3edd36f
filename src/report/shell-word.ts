import { printable } from '../terms/printable.ts';

/**
 * A name as it can be typed into a command, in quotes where it takes them. Names come from files, and a
 * person may paste this: none becomes a command of its own.
 *
 * @example shellWord('2m3 v2') // '"2m3 v2"'
 */
export const shellWord = (name: string): string => {
  const shown = printable(name);
  if (/^[\p{L}\p{N}._/][\p{L}\p{N}._/-]*$/u.test(shown)) return shown;
  if (/^[\p{L}\p{N} ._/+-]*$/u.test(shown)) return `"${shown}"`;
  return `'${shown.replaceAll("'", String.raw`'\''`)}'`;
};
