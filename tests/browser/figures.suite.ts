import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { bytesIn, formatBytes, type ByteUnit } from '../../src/report/format.ts';
import { toJson } from '../../src/report/json.ts';
import { openPage, type Setting } from './open-page.ts';

const sizes = { B: 1, KiB: 2 ** 10, MiB: 2 ** 20, GiB: 2 ** 30 } as const;
const withUnit = /^<?[\d .]+ (B|KiB|MiB|GiB)$/;

interface SeenFigure {
  readonly text: string;
  readonly bytes: string;
  /** Where a table names its unit: the head of the column, the caption, the words above. */
  readonly around: readonly string[];
}

const figuresOf = (tab: Page): Promise<readonly SeenFigure[]> =>
  tab.evaluate(() =>
    [...document.querySelectorAll('[data-bytes]')].map((element) => {
      const textOf = (node: Element | null | undefined): string =>
        (node?.textContent ?? '').replace(/\s+/g, ' ').trim();
      const cell = element.closest('td, th');
      const table = element.closest('table');
      const heads = [...(table?.querySelectorAll('thead tr:last-child > *') ?? [])];
      const column = cell === null ? -1 : [...(cell.parentElement?.children ?? [])].indexOf(cell);
      const above = [...(element.closest('section')?.querySelectorAll(':scope > p') ?? [])];
      return {
        text: textOf(element),
        bytes: element.getAttribute('data-bytes') ?? '',
        around: [textOf(heads[column]), textOf(table?.querySelector('caption')), textOf(above[0])],
      };
    }),
  );

/** The unit in which a figure without one is meant. */
const unitAround = (around: readonly string[]): ByteUnit | null => {
  for (const text of around) {
    const name = /\b(KiB|MiB|GiB)\b|, (B)\./.exec(text);
    const unit = (name?.[1] ?? name?.[2]) as keyof typeof sizes | undefined;
    if (unit !== undefined) return { name: unit, size: sizes[unit] };
  }
  return null;
};

/** How far the text is from the exact number at the most, by what is left of its last place. */
const isNear = (text: string, bytes: number, size: number): boolean => {
  const digits = text.replace(/[^\d.<]/g, '');
  if (digits.startsWith('<')) return bytes > 0 && bytes < Number(digits.slice(1)) * size;
  const places = digits.split('.')[1]?.length ?? 0;
  return Math.abs(Number(digits) * size - bytes) <= (size * 10 ** -places) / 2 + 1e-6;
};

export const figuresSuite = (at: () => Setting) =>
  describe('every figure is that of the data', () => {
    it.each(['demo', 'small'] as const)('on the %s page', async (name) => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made[name].url);
      const figures = await figuresOf(tab);
      expect(figures.length).toBeGreaterThan(60);
      const wrong = figures.filter(({ text, bytes, around }) => {
        if (!/^-?\d+$/.test(bytes)) return true;
        const exact = Math.abs(Number(bytes));
        const plain = text.replace(/^[-\u2212]/, '');
        const unit = withUnit.exec(plain)?.[1] as keyof typeof sizes | undefined;
        if (unit !== undefined) {
          return formatBytes(exact) !== plain || !isNear(plain, exact, sizes[unit]);
        }
        const meant = unitAround(around);
        if (meant === null) return true;
        return bytesIn(exact, meant) !== plain || !isNear(plain, exact, meant.size);
      });
      expect(wrong.slice(0, 10)).toEqual([]);
      await close();
    });

    it.each(['demo', 'small', 'hostile'] as const)(
      'the %s page holds what it was made from',
      async (name) => {
        const { browser, pages } = at();
        const { overview, url } = pages.made[name];
        const { tab, close } = await openPage(browser, url, { javaScriptEnabled: false });
        const held = await tab.evaluate(() => document.getElementById('data')?.textContent ?? '');
        expect(JSON.parse(held)).toEqual(JSON.parse(toJson(overview)));
        expect(held).not.toMatch(/[<\u2028\u2029]/);
        await close();
      },
    );

    it('saves what it holds', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.demo;
      const { tab, complaints, close } = await openPage(browser, url);
      const [download] = await Promise.all([
        tab.waitForEvent('download'),
        tab.getByRole('button', { name: 'Save data' }).click(),
      ]);
      const chunks: Uint8Array[] = [];
      for await (const chunk of await download.createReadStream()) chunks.push(chunk as Uint8Array);
      expect(download.suggestedFilename()).toMatch(/^[\w.-]+\.json$/);
      const text = Buffer.concat(chunks).toString('utf8');
      expect(JSON.parse(text)).toEqual(JSON.parse(toJson(overview)));
      expect(complaints).toEqual([]);
      await close();
    });
  });
