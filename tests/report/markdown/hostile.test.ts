import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readBlocks, type Block } from '../../../src/report/markdown/blocks.ts';
import { markdownLook } from '../../../src/report/markdown/markdown-look.ts';
import { bareText } from '../../../src/report/markdown/runs.ts';
import { markdownTitle } from '../../../src/report/markdown/titles.ts';
import { hostileNames } from '../fixtures/names.ts';
import { all, everything, parse, shown, type Node } from './parse.ts';
import { renaming } from './rename.ts';
import { markdownOf, piped, reports, type Report } from './reports.ts';

// Names are text, whatever is in them: read by a Markdown parser that is not ours, a report has the
// same tables, lists and sentences with any names in it, and says the same.

/** All that a report is made of; nothing else may come from a name. */
const allowed = [
  ...['root', 'heading', 'paragraph', 'text', 'strong', 'list', 'listItem', 'code'],
  ...['table', 'tableRow', 'tableCell'],
];

const dangers = [
  ...['|', '\\', '`', '```', '*', '**', '_', '__', '~~', '$', '&', '&amp;', '&#124;', '&lt'],
  ...[
    '<b>',
    '</td>',
    '<!--',
    '-->',
    '<?',
    '<http://a.b>',
    '<a@b.c>',
    'http://a.b',
    'https://a.b/c',
  ],
  ...[
    'www.a.b',
    'ftp://a.b',
    'a@b.cd',
    'mailto:a@b.cd',
    '[x](y)',
    '![x](y)',
    '[x]',
    '[x]: y',
    ']:',
  ],
  ...[
    '#',
    '# ',
    ' #',
    '- ',
    '+ ',
    '* ',
    '1. ',
    '1) ',
    '> ',
    '---',
    '===',
    '***',
    '| --- |',
    '[ ] ',
  ],
  ...['\n', '\r\n', '\t', '    ', ' ', '\u00a0', '\u3000', '\u202e', '\u0001', '\u0006', '\u0012'],
  ...['x', 'é', '弦', '7', '!', '"', ':', '.', '{{', '}}'],
] as const;

const nameOf = fc.oneof(
  fc.array(fc.constantFrom(...dangers), { minLength: 1, maxLength: 5 }).map((all) => all.join('')),
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.constantFrom(...hostileNames),
);

const textOf = (block: Block): string => {
  if (block.kind === 'verbatim') return block.lines.join('');
  if (block.kind !== 'table') return bareText(block.runs);
  return [block.titles, ...block.rows.map(({ cells }) => cells)].flat().map(bareText).join('');
};

const squeezed = (text: string): string => text.replace(/\s/gu, '');

const counts = (root: Node): Readonly<Record<string, number>> => {
  const count = (type: string): number => all(root, type).length;
  return {
    rows: count('tableRow'),
    tables: count('table'),
    cells: count('tableCell'),
    lists: count('list'),
    items: count('listItem'),
    code: count('code'),
    // A name that ends as a sentence does may make a sentence of a heading.
    sentences: count('paragraph') + count('heading'),
  };
};

/** As many plain names as there are hostile ones, as alike among each other. */
const plainNames = (names: readonly string[]): readonly string[] =>
  names.map((name) => `name ${String(names.indexOf(name))}`);

const check = async (report: Report, names: readonly string[]): Promise<void> => {
  const change = renaming(names);
  const markdown = markdownOf(report, change);
  const root = await parse(markdown);
  const types = new Set(everything(root).map(({ type }) => type));
  expect([...types].filter((type) => !allowed.includes(type))).toEqual([]);
  const said = readBlocks(report.text(markdownLook(piped), change))
    .map(textOf)
    .join('');
  const read = shown(root);
  expect(squeezed(read)).toBe(squeezed(`${markdownTitle(report.schema)}${said}`));
  expect(markdown.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
};

test.each(reports.map((report) => [report.name, report] as const))('%s', async (_, report) => {
  await fc.assert(
    fc.asyncProperty(fc.array(nameOf, { minLength: 1, maxLength: 6 }), (names) =>
      check(report, names),
    ),
    { numRuns: 10 },
  );
});

describe('has the same blocks with any names', () => {
  test.each(reports.map((report) => [report.name, report] as const))('%s', async (_, report) => {
    await fc.assert(
      fc.asyncProperty(fc.uniqueArray(nameOf, { minLength: 40, maxLength: 40 }), async (names) => {
        const hostile = await parse(markdownOf(report, renaming(names)));
        const plain = await parse(markdownOf(report, renaming(plainNames(names))));
        expect(counts(hostile)).toEqual(counts(plain));
      }),
      { numRuns: 3 },
    );
  });
});
