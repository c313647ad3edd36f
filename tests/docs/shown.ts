import type { ShownPart } from './page-steps.ts';

/** A line that stands for any number of lines, none included. */
const gap = '…';

const isGap = (line: string): boolean => line.trim() === gap;

/** Lines that follow each other, and whether anything may stand before and behind them. */
interface Stretch {
  readonly lines: readonly string[];
  readonly openBefore: boolean;
  readonly openBehind: boolean;
}

const trimmed = (lines: readonly string[]): readonly string[] => {
  const first = lines.findIndex((line) => line !== '');
  return first < 0 ? [] : lines.slice(first, lines.findLastIndex((line) => line !== '') + 1);
};

/** Blank lines beside a gap or at an end say nothing, so they are not counted. */
const stretchesOf = (lines: readonly string[], isFirst: boolean, isLast: boolean): Stretch[] => {
  const marks = [-1, ...lines.flatMap((line, i) => (isGap(line) ? [i] : [])), lines.length];
  return marks
    .slice(1)
    .map((end, i) => ({
      lines: trimmed(lines.slice((marks[i] ?? -1) + 1, end)),
      openBefore: i > 0 || !isFirst,
      openBehind: i < marks.length - 2 || !isLast,
    }))
    .filter((stretch) => stretch.lines.length > 0);
};

const partStretches = (parts: readonly ShownPart[]): readonly Stretch[][] =>
  parts.map(({ lines }, i) => stretchesOf(lines, i === 0, i === parts.length - 1));

const isAt = (all: readonly string[], at: number, lines: readonly string[]): boolean =>
  lines.every((line, i) => all[at + i] === line);

/**
 * Holds what a page shows against what was printed.
 *
 * @returns null when it is so; else the first line of the page's that was not found, and where it
 *   was looked for
 */
export const differenceOf = (
  parts: readonly ShownPart[],
  printed: readonly string[],
): string | null => {
  const actual = trimmed(printed);
  let cursor = 0;
  for (const { lines, openBefore, openBehind } of partStretches(parts).flat()) {
    const last = actual.length - lines.length;
    const starts = openBefore
      ? openBehind
        ? Array.from({ length: Math.max(0, last - cursor + 1) }, (_, i) => cursor + i)
        : [last]
      : [0];
    const at = starts.find((start) => start >= cursor && isAt(actual, start, lines));
    if (at === undefined || (!openBehind && at !== last)) {
      const near = actual.slice(cursor, cursor + Math.max(12, lines.length)).join('\n');
      return `shown and not printed:\n${lines.join('\n')}\n\nprinted from there on:\n${near}`;
    }
    cursor = at + lines.length;
  }
  return null;
};

/** A line without its figures and rules: by that it is found again when only those have changed. */
const shapeOf = (line: string): string =>
  line
    .replace(/[\d.,\s]+/g, ' ')
    .replace(/─+/g, '─')
    .trim();

const findLine = (all: readonly string[], from: number, wanted: string): number => {
  const tests = [
    (line: string) => line === wanted,
    (line: string) => shapeOf(line) === shapeOf(wanted),
    (line: string) => shapeOf(line).startsWith(shapeOf(wanted)) && shapeOf(wanted) !== '',
  ];
  for (const test of tests) {
    const at = all.findIndex((line, i) => i >= from && test(line));
    if (at >= 0) return at;
  }
  return -1;
};

/** @returns the lines for each part, with the same gaps; null where the printed lines are others */
export const refilled = (
  parts: readonly ShownPart[],
  printed: readonly string[],
): readonly (readonly string[])[] | null => {
  const actual = trimmed(printed);
  let cursor = 0;
  const result: string[][] = [];
  for (const stretches of partStretches(parts)) {
    const lines: string[] = stretches.length === 0 ? [gap] : [];
    for (const [i, { lines: old, openBefore, openBehind }] of stretches.entries()) {
      const [first = '', last = ''] = [old[0], old.at(-1)];
      const from = openBefore ? findLine(actual, cursor, first) : 0;
      if (from < 0) return null;
      const to = !openBehind
        ? actual.length - 1
        : old.length === 1
          ? from
          : findLine(actual, from + 1, last);
      if (to < 0) return null;
      if (i > 0 || (openBefore && result.length === 0)) lines.push(gap);
      lines.push(...actual.slice(from, to + 1));
      if (i === stretches.length - 1 && openBehind && result.length === parts.length - 1) {
        lines.push(gap);
      }
      cursor = to + 1;
    }
    result.push(lines);
  }
  return result;
};
