/** UTF-16 units of a name that are looked at: escaped, they still fit into a pattern. */
export const longestSpelled = 200;

/** The capture in drafted patterns. */
export const capture = '{art}';

/** A text as a pattern that matches just it. */
export const escaped = (text: string): string => text.replace(/[\\*{}]/g, '\\$&');

/** The start of a name that is too long to be spelled out; null for other names. */
export const startOfLong = (name: string): string | null =>
  name.length <= longestSpelled
    ? null
    : // Not in the middle of a surrogate pair, and no blank at the end.
      name
        .slice(0, longestSpelled)
        .replace(/[\uD800-\uDBFF]$/u, '')
        .trimEnd();

/** A pattern for one name. Of a very long one the start, and whatever follows. */
export const namePattern = (name: string): string => {
  const start = startOfLong(name);
  return start === null ? escaped(name) : `${escaped(start)}*`;
};

/** The same with a capture in place of what stands at `span`. */
export const capturePattern = (name: string, [start, end]: readonly [number, number]): string =>
  `${escaped(name.slice(0, start))}${capture}${escaped(name.slice(end))}`;
