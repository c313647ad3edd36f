import { cellMark, lineMarks, paintMarks } from './marks.ts';
import { bareText, readRuns, type Run } from './runs.ts';

type Runs = readonly Run[];

/** A row of a table; sums stand under a rule. */
export interface BlockRow {
  readonly cells: readonly Runs[];
  readonly isSum: boolean;
}

/** What a report is made of. */
export type Block =
  | { readonly kind: 'heading' | 'sentence'; readonly runs: Runs }
  /** `lead`: a dash, a number with its point, or nothing where a numbered item goes on. */
  | {
      readonly kind: 'item';
      readonly depth: number;
      readonly lead: string;
      readonly runs: Runs;
    }
  | {
      readonly kind: 'table';
      readonly sides: readonly ('left' | 'right')[];
      readonly titles: readonly Runs[];
      readonly rows: readonly BlockRow[];
    }
  | { readonly kind: 'verbatim'; readonly lines: readonly string[] };

/** Where a sentence ends, or one that introduces what follows. */
const sentenceEnd = /[.:]$/;

/**
 * Whether a line is a heading: it begins a section and is bold, but no verdict, which is a sentence.
 *
 * @param place whether the line before and the one behind are blank, and whether it opens the report
 */
const isHeading = (
  line: string,
  place: { readonly before: boolean; readonly behind: boolean; readonly first: boolean },
): boolean => {
  if (!place.before || !line.startsWith(paintMarks.bold)) return false;
  const runs = readRuns(line);
  if (!sentenceEnd.test(bareText(runs))) return true;
  const isWhole = runs.every(({ text, paint }) => paint === 'bold' || text.trim() === '');
  return isWhole && place.behind && !place.first;
};

const cellsOf = (line: string): readonly string[] => line.slice(1).split(cellMark);

const readTable = (lines: readonly string[]): Block => {
  const titles = cellsOf(lines[0] ?? '');
  const lastRule = lines.findLastIndex((line) => line.startsWith(lineMarks.rule));
  const rows = lines.flatMap((line, i): readonly BlockRow[] =>
    line.startsWith(lineMarks.row)
      ? [{ cells: cellsOf(line).map(readRuns), isSum: lastRule > 0 && i > lastRule }]
      : [],
  );
  return {
    kind: 'table',
    sides: titles.map((title) => (title.startsWith('r') ? 'right' : 'left')),
    titles: titles.map((title) => readRuns(title.slice(1))),
    rows,
  };
};

const readItem = (line: string): Block => {
  const [, depth = '0', lead = '', text = ''] = /^.(\d)(-|\d+\.|) ?(.*)$/su.exec(line) ?? [];
  return { kind: 'item', depth: Number(depth), lead, runs: readRuns(text) };
};

/** From `start` on, as long as lines begin with one of `marks`. */
const stretch = (lines: readonly string[], start: number, marks: readonly string[]) => {
  const end = lines.findIndex((line, i) => i > start && !marks.includes(line.charAt(0)));
  return lines.slice(start, end < 0 ? lines.length : end);
};

/** Parts a marked report into its blocks. */
export const readBlocks = (text: string): readonly Block[] => {
  const lines = text.split('\n');
  const blocks: Block[] = [];
  const firstBlank = lines.indexOf('');
  for (let i = 0; i < lines.length; i += 1) {
    const line = lines[i] ?? '';
    const mark = line.charAt(0);
    if (line === '') continue;
    if (mark === lineMarks.head) {
      const own = stretch(lines, i, [lineMarks.row, lineMarks.rule]);
      blocks.push(readTable(own));
      i += own.length - 1;
    } else if (mark === lineMarks.verbatim) {
      const own = stretch(lines, i, [lineMarks.verbatim]);
      blocks.push({ kind: 'verbatim', lines: own.map((each) => bareText(readRuns(each))) });
      i += own.length - 1;
    } else if (mark === lineMarks.item) blocks.push(readItem(line));
    else {
      const place = {
        before: (lines[i - 1] ?? '') === '',
        behind: (lines[i + 1] ?? '') === '',
        first: firstBlank < 0 || i < firstBlank,
      };
      const kind = isHeading(line, place) ? 'heading' : 'sentence';
      blocks.push({ kind, runs: readRuns(line) });
    }
  }
  return blocks;
};
