import { describe, expect, test } from 'vitest';
import { all, parse, shown } from './parse.ts';
import { markdownOf, piped, reports } from './reports.ts';

const cases = reports.map((report) => [report.name, report] as const);

/** Figures as they are printed: `1 203`, `41.5`, `0:46`, `12/44`, `36-76`, `129 %`. */
const figures = (text: string): readonly string[] =>
  text.match(/\d+(?: \d{3})*(?:[.:/-]\d+)*/gu) ?? [];

describe.each(cases)('%s', (_, report) => {
  test('says every figure of the table', async () => {
    const said = shown(await parse(markdownOf(report)));
    const wanted = new Set(figures(report.text(piped)));
    expect(wanted.size).toBeGreaterThan(0);
    expect([...wanted].filter((figure) => !said.includes(figure))).toEqual([]);
  });

  test('has as many cells in each row as its table has columns', async () => {
    const markdown = markdownOf(report);
    for (const table of all(await parse(markdown), 'table')) {
      const columns = table.align?.length ?? 0;
      for (const row of table.children ?? []) expect(row.children).toHaveLength(columns);
    }
    // Parsers forgive rows that are too short or too long (GFM, section 4.10); ours never are.
    let columns: number | null = null;
    for (const line of markdown.split('\n')) {
      const isRow = line.startsWith('|');
      const cells = line.replaceAll('\\|', '').split('|').length - 2;
      if (isRow && columns !== null) expect(cells, line).toBe(columns);
      columns = isRow ? cells : null;
    }
  });

  test('sets figures to the right', async () => {
    for (const table of all(await parse(markdownOf(report)), 'table')) {
      const [head, ...rows] = table.children ?? [];
      (head?.children ?? []).forEach((title, i) => {
        const cells = rows.map((row) => shown(row.children?.[i] ?? title));
        const isFigures = cells.every((cell) => /^(?:! )?[\d .,<+-]*\d$/u.test(cell));
        if (!/MiB|KiB|zones|Notes|Zones/u.test(shown(title)) || !isFigures) return;
        expect(table.align?.[i], shown(title)).toBe('right');
      });
    }
  });
});

test('there are tables, totals in bold, headings and lists in them', async () => {
  const roots = await Promise.all(reports.map((report) => parse(markdownOf(report))));
  const count = (type: string): number => roots.flatMap((root) => all(root, type)).length;
  expect(count('table')).toBeGreaterThan(20);
  expect(count('list')).toBeGreaterThan(20);
  expect(count('code')).toBeGreaterThan(1);
  expect(roots.every((root) => root.children?.[0]?.type === 'heading')).toBe(true);
  const plan = roots[reports.findIndex(({ name }) => name === 'plan')]!;
  const whole = all(plan, 'tableRow').find((row) => shown(row).startsWith('Whole instrument'));
  expect(
    whole?.children?.every((cell) => shown(cell) === '' || all(cell, 'strong').length > 0),
  ).toBe(true);
});
