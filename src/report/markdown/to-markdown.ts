import { readBlocks, type Block } from './blocks.ts';
import { escapeHeading, escapeText } from './escape.ts';
import { lineOf, writeRuns, type Paint, type Run } from './runs.ts';

/** In a sentence all that stands out in a terminal does; in tables only what must not be missed. */
const inSentences: readonly Paint[] = ['bold', 'stress', 'good'];
const inCells: readonly Paint[] = ['bold', 'stress'];

/** Begins a line: what would make a block of it is escaped. */
const sentence = (runs: readonly Run[]): string => writeRuns(runs, inSentences, 'start');

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

const cell = (runs: readonly Run[], isSum: boolean): string => {
  if (!isSum) return writeRuns(runs, inCells, 'inside');
  const text = lineOf(runs);
  return text === '' ? '' : `**${escapeText(text)}**`;
};

/** How far that is behind a dash. */
const dashInset = '  ';

/** A table (GitHub Flavored Markdown 0.29, section 4.10): numbers to the right, sums in bold. */
const table = ({ sides, titles, rows }: Extract<Block, { kind: 'table' }>): readonly string[] => [
  row(titles.map((runs) => escapeText(lineOf(runs)))),
  row(sides.map((side) => (side === 'right' ? '--:' : '---'))),
  ...rows.map(({ cells, isSum }) => row(titles.map((_, i) => cell(cells[i] ?? [], isSum)))),
];

/** Lines as they are, in a fence that is longer than any in them (CommonMark, section 4.5). */
const verbatim = (lines: readonly string[]): readonly string[] => {
  const longest = Math.max(
    2,
    ...lines.flatMap((line) => (line.match(/`+/gu) ?? []).map(({ length }) => length)),
  );
  const fence = '`'.repeat(longest + 1);
  return [`${fence}text`, ...lines, fence];
};

/**
 * Items side by side in one list stand without a line between them, and so do those that belong to one
 * led by a dash.
 *
 * @param isUnderDash whether the item of depth 0 that came last is led by a dash
 */
const isTight = (block: Block, before: Block | undefined, isUnderDash: boolean): boolean =>
  block.kind === 'item' &&
  before?.kind === 'item' &&
  block.lead === '-' &&
  before.lead === '-' &&
  (block.depth === before.depth || isUnderDash);

/**
 * Makes Markdown of a report: a title, headings, tables, lists, and a paragraph for each sentence.
 * All text is escaped, so that no name of a file becomes a heading, a link or a cell.
 *
 * @param text a report made with {@link markdownLook}; its structure is in its marks
 * @param title what the report is
 */
export const toMarkdown = (text: string, title: string): string => {
  const out: string[] = [`# ${escapeHeading(title)}`];
  let before: Block | undefined;
  // What belongs to an item is set in as far as its text (CommonMark, section 5.2).
  let inset = '';
  for (const block of readBlocks(text)) {
    if (!isTight(block, before, inset === dashInset)) out.push('');
    switch (block.kind) {
      case 'heading':
        out.push(`## ${escapeHeading(lineOf(block.runs))}`);
        break;
      case 'sentence':
        out.push(sentence(block.runs));
        break;
      case 'item': {
        const { lead, runs } = block;
        const isNumbered = /\d/.test(lead);
        if (isNumbered || (block.depth === 0 && lead === '-')) inset = ' '.repeat(lead.length + 1);
        const margin = block.depth === 0 || isNumbered ? '' : inset;
        out.push(`${margin}${lead === '' ? '' : `${lead} `}${sentence(runs)}`);
        break;
      }
      case 'table':
        out.push(...table(block));
        break;
      case 'verbatim':
        out.push(...verbatim(block.lines));
    }
    before = block;
  }
  return `${out.join('\n')}\n`;
};
