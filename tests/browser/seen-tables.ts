import type { Page } from 'playwright-core';

/** A cell as a reader sees it, and the exact figure that it says it stands for. */
export interface SeenCell {
  readonly text: string;
  readonly bytes: number | null;
}

export interface SeenTable {
  readonly caption: string;
  readonly heads: readonly string[];
  /** Rows of one cell across the table are titles of what comes below. */
  readonly rows: readonly (readonly SeenCell[])[];
}

/** All tables of a section, with every row that is shown. */
export const tablesIn = (tab: Page, section: string): Promise<readonly SeenTable[]> =>
  tab.locator(`#${section} table`).evaluateAll((tables) =>
    tables.map((table) => {
      const textOf = (node: Element | null): string =>
        (node?.textContent ?? '').replace(/\s+/g, ' ').trim();
      const rows = [...table.querySelectorAll('tbody tr, tfoot tr')];
      return {
        caption: textOf(table.querySelector('caption')),
        heads: [...table.querySelectorAll('thead th')].map(textOf),
        rows: rows.map((row) =>
          [...row.children].map((cell) => {
            const holder = cell.matches('[data-bytes]') ? cell : cell.querySelector('[data-bytes]');
            const bytes = holder?.getAttribute('data-bytes') ?? null;
            return { text: textOf(cell), bytes: bytes === null ? null : Number(bytes) };
          }),
        ),
      };
    }),
  );

/** The table of a section that has these heads, read by them. */
export const tableWith = async (
  tab: Page,
  section: string,
  ...heads: readonly string[]
): Promise<readonly Readonly<Record<string, SeenCell>>[]> => {
  const table = (await tablesIn(tab, section)).find((one) =>
    heads.every((head) => one.heads.includes(head)),
  );
  if (table === undefined) throw new Error(`no table of ${section} has ${heads.join(', ')}`);
  return table.rows
    .filter((cells) => cells.length > 1)
    .map((cells) => Object.fromEntries(table.heads.map((head, i) => [head, cells[i]!])));
};

/** What a reader takes a whole number of the page for. */
export const wholeOf = (cell: SeenCell | undefined): number =>
  Number((cell?.text ?? '').replaceAll(' ', ''));
