import CliTable, { type CharName } from 'cli-table3';
import type { Cell } from './cell.ts';
import { gap, placeColumns, widest, type Column, type Row } from './column-widths.ts';
import type { Look } from './look.ts';
import { cellMark, lineMarks } from './markdown/marks.ts';
import { paragraph } from './paragraph.ts';

export type { Column, Row } from './column-widths.ts';

export interface Table {
  readonly text: string;
  /** Headings of the columns that had no room. */
  readonly leftOut: readonly string[];
}

/** Nothing is drawn but what stands in cells: columns are set apart by space. */
const bare: Partial<Record<CharName, string>> = {
  ...Object.fromEntries(
    (
      [
        ...['top', 'top-mid', 'top-left', 'top-right', 'bottom', 'bottom-mid', 'bottom-left'],
        ...['bottom-right', 'left', 'left-mid', 'mid', 'mid-mid', 'right', 'right-mid'],
      ] as const
    ).map((name) => [name, '']),
  ),
  middle: ' '.repeat(gap),
};

/** Paints each line by itself: a colour never crosses the gap between columns. */
const painted = (lines: readonly string[], paint: Cell['paint']): string =>
  lines.map((line) => (line === '' || paint === undefined ? line : paint(line))).join('\n');

/** Headings stand on the line above the rule, whatever their height. */
const headings = (columns: readonly Column[]): readonly (readonly string[])[] => {
  const height = columns.reduce((most, { title }) => Math.max(most, title.length), 0);
  return columns.map(({ title }) => [
    ...Array.from({ length: height - title.length }, () => ''),
    ...title,
  ]);
};

const nameOf = ({ title }: Column): string =>
  title.join(' ').replace(/^./, (first) => first.toLowerCase());

/** All columns, each cell on one line, set apart by marks. */
const markTable = (columns: readonly Column[], rows: readonly Row[]): Table => {
  const titles = columns.map(
    ({ title, align }) => `${align === 'right' ? 'r' : 'l'}${title.join(' ')}`,
  );
  const lines = rows.map((row) =>
    row === 'rule'
      ? lineMarks.rule
      : `${lineMarks.row}${columns.map((_, i) => markCell(row[i])).join(cellMark)}`,
  );
  return { text: [`${lineMarks.head}${titles.join(cellMark)}`, ...lines].join('\n'), leftOut: [] };
};

const markCell = (cell: Cell | undefined): string => {
  // With Infinity a list is not broken; what has lines even so is a list of its own.
  const text = (cell?.fit(Infinity) ?? '').split('\n').join('; ');
  return text === '' || cell?.paint === undefined ? text : cell.paint(text);
};

/**
 * Lays a table out: columns two spaces apart, a rule under the headings and where a row says so, no
 * other lines.
 *
 * @param look in a `width` of null nothing is cut
 */
export const layOut = (columns: readonly Column[], rows: readonly Row[], look: Look): Table => {
  if (look.marked === true) return markTable(columns, rows);
  const { ascii, colors, width } = look;
  const placed = placeColumns(columns, rows, width);
  const shown = placed.map(({ column }) => column);
  const titles = headings(shown);
  const content = rows.map((row) =>
    row === 'rule'
      ? row
      : placed.map(({ index, width: room }) => {
          const cell = row[index];
          const text = (width === null ? cell?.whole : cell?.fit(room)) ?? '';
          return { lines: text.split('\n'), paint: cell?.paint };
        }),
  );
  const rule = titles.map((title, i) => {
    const room = content.reduce(
      (most, row) => (row === 'rule' ? most : Math.max(most, widest(row[i]?.lines ?? []))),
      widest(title),
    );
    return colors.dim((ascii ? '-' : '─').repeat(room));
  });
  // The library colours heads and borders on its own, also in pipes, unless these lists are empty.
  const table = new CliTable({
    chars: bare,
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
    colAligns: shown.map(({ align }) => align),
  });
  table.push(
    titles.map((lines) => painted(lines, colors.bold)),
    rule,
    ...content.map((row) =>
      row === 'rule' ? rule : row.map(({ lines, paint }) => painted(lines, paint)),
    ),
  );
  const text = table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
  return { text, leftOut: columns.filter((column) => !shown.includes(column)).map(nameOf) };
};

/** Says which columns had no room, or nothing. */
export const notShown = (leftOut: readonly string[], { colors, width }: Look): readonly string[] =>
  leftOut.length === 0
    ? []
    : paragraph([`Not shown in this width: ${leftOut.join(', ')}.`], width).map((line) =>
        colors.dim(line),
      );
