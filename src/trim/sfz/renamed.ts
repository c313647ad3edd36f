import type { Place } from '../../instruments/sfz/text/document.ts';
import { plainPath, withSlashes } from '../../instruments/sfz/text/paths.ts';

/** The path that a directive names, without its quotes. */
export const insideQuotes = (
  text: string,
  { start, end }: Place,
): { readonly start: number; readonly end: number } => ({
  start: text.indexOf('"', start) + 1,
  end: end - 1,
});

/** Where a number goes into a path: in front of the last dot of its name, or at its end. */
const placeOfNumber = (path: string): number => {
  const name = Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1;
  const dot = path.lastIndexOf('.');
  return dot < name ? path.length : dot;
};

/** @example numbered('kits/kit.sfz', 2) // 'kits/kit-2.sfz' */
export const numbered = (path: string, number: number): string => put(path, `-${String(number)}`);

const put = (path: string, suffix: string): string => {
  const at = placeOfNumber(path);
  return path.slice(0, at) + suffix + path.slice(at);
};

/**
 * A directive's path, leading to another name of the same folder.
 *
 * @param raw the path as it stands
 * @param written the same, variables put in
 * @param original where it led
 * @param name where it is to lead: `original` with a number
 */
export const renamed = (raw: string, written: string, original: string, name: string): string => {
  const at = placeOfNumber(original);
  const suffix = name.slice(at, name.length - (original.length - at));
  // A variable that stands for the end of the name, or a path that ends in steps, has no place for it.
  const isPlain =
    !raw.slice(placeOfNumber(raw)).includes('$') &&
    !/\$\w*$/u.test(raw) &&
    !/(?:^|[/\\])\.{0,2}$/u.test(raw);
  return put(isPlain ? raw : plainPath(withSlashes(written)), suffix);
};
