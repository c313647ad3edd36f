import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openPage, type Setting } from './open-page.ts';

const rowsShown = (tab: Page): Promise<readonly string[]> =>
  tab
    .locator('#all tbody tr')
    .evaluateAll((rows) =>
      rows
        .filter((row) => row.checkVisibility())
        .map((row) => row.getAttribute('data-instrument') ?? ''),
    );

/** Cells of a column of the rows that are shown, as the reader sees them. */
const columnShown = (tab: Page, index: number): Promise<readonly string[]> =>
  tab
    .locator('#all tbody tr')
    .evaluateAll(
      (rows, at) => rows.map((row) => (row.children[at]?.textContent ?? '').trim()),
      index,
    );

const focused = (tab: Page): Promise<string> =>
  tab.evaluate(() => {
    const element = document.activeElement;
    return `${element?.closest('[data-instrument]')?.getAttribute('data-instrument') ?? ''} ${element?.tagName ?? ''}`;
  });

/** How a reader orders two cells: by number where both begin with one, else as text. */
const inOrder = (a: string, b: string): number => {
  const number = (text: string): number =>
    text.startsWith('<') ? 0 : Number.parseFloat(text.replace(/(\d)\s(?=\d)/g, '$1'));
  const [one, two] = [number(a), number(b)];
  if (!Number.isNaN(one) && !Number.isNaN(two)) return one - two;
  return a < b ? -1 : a > b ? 1 : 0;
};

export const controlsSuite = (at: () => Setting) =>
  describe('the table of instruments', () => {
    const open = async (look: (tab: Page) => Promise<void>, hash = ''): Promise<void> => {
      const { browser, pages } = at();
      const { tab, complaints, close } = await openPage(browser, pages.made.demo.url + hash);
      await look(tab);
      expect(complaints).toEqual([]);
      await close();
    };

    it('sorts by every column, both ways, and says so', () =>
      open(async (tab) => {
        const before = await rowsShown(tab);
        const heads = await tab.locator('#all thead th button').all();
        expect(heads.length).toBe(await tab.locator('#all thead th').count());
        for (const [i, head] of heads.entries()) {
          const seen: string[] = [];
          while (seen.length < 2) {
            await head.click();
            const sorts = await tab
              .locator('#all thead th')
              .evaluateAll((all) => all.map((one) => one.getAttribute('aria-sort')));
            const own = sorts[i] ?? '';
            expect(sorts.filter((sort) => sort === 'ascending' || sort === 'descending')).toEqual([
              own,
            ]);
            seen.push(own);
            const cells = await columnShown(tab, i);
            expect(cells).toHaveLength(before.length);
            const turned = own === 'ascending' ? cells : [...cells].reverse();
            turned.slice(1).forEach((cell, at) => {
              expect(inOrder(turned[at]!, cell), `${turned[at]!} before ${cell}`).toBeLessThan(1);
            });
          }
          expect(seen.sort()).toEqual(['ascending', 'descending']);
        }
        expect([...(await rowsShown(tab))].sort()).toEqual([...before].sort());
      }));

    it('filters, counts what is left, and lets go with Esc', () =>
      open(async (tab) => {
        const all = await rowsShown(tab);
        const text = new Map(
          await tab
            .locator('#all tbody tr')
            .evaluateAll((rows) =>
              rows.map((row) => [
                row.getAttribute('data-instrument') ?? '',
                row.textContent.toLowerCase(),
              ]),
            ),
        );
        await tab.keyboard.press('/');
        expect(await tab.evaluate(() => document.activeElement?.id)).toBe('q');
        expect(await tab.locator('#q').inputValue()).toBe('');
        await tab.keyboard.type('STRINGS');
        await expect.poll(() => rowsShown(tab)).not.toHaveLength(all.length);
        const left = await rowsShown(tab);
        expect(left).toEqual(all.filter((id) => text.get(id)!.includes('strings')));
        expect(await tab.locator('#shown').innerText()).toContain(
          `${String(left.length)} of ${String(all.length)}`,
        );
        await tab.keyboard.press('Escape');
        await expect.poll(() => rowsShown(tab)).toEqual(all);
        expect(await tab.locator('#q').inputValue()).toBe('');
        await tab.keyboard.press('/');
        await tab.keyboard.type('no such instrument');
        await expect.poll(() => rowsShown(tab)).toEqual([]);
        expect(await tab.locator('#shown').innerText()).toMatch(/^(0|none)/);
        const none = tab.getByText('No instrument matches.');
        expect(await none.isVisible()).toBe(true);
        await tab.keyboard.press('Escape');
        expect(await none.isVisible()).toBe(false);
      }));

    it('is walked with j, k and arrows, and Enter leads to the map', () =>
      open(async (tab) => {
        const [first = '', second = ''] = await rowsShown(tab);
        await tab.keyboard.press('j');
        expect(await focused(tab)).toBe(`${first} A`);
        await tab.keyboard.press('j');
        expect(await focused(tab)).toBe(`${second} A`);
        await tab.keyboard.press('k');
        expect(await focused(tab)).toBe(`${first} A`);
        await tab.keyboard.press('ArrowDown');
        expect(await focused(tab)).toBe(`${second} A`);
        await tab.keyboard.press('ArrowUp');
        await tab.keyboard.press('k');
        expect(await focused(tab)).toBe(`${first} A`);
        await tab.keyboard.press('j');
        await tab.keyboard.press('Enter');
        const map = tab.locator(`#maps section[data-instrument="${second}"]`);
        expect(await map.evaluate((own) => own.contains(document.activeElement))).toBe(true);
        const top = (): Promise<number> => map.evaluate((own) => own.getBoundingClientRect().top);
        await expect.poll(top).toBeLessThan(500);
        expect(await top()).toBeGreaterThan(-100);
      }));

    it('types letters into the filter as letters', () =>
      open(async (tab) => {
        await tab.keyboard.press('/');
        await tab.keyboard.type('jk/');
        expect(await tab.locator('#q').inputValue()).toBe('jk/');
      }));

    it('keeps sort, filter and choice in the address: a reload restores them', () =>
      open(async (tab) => {
        await tab.locator('#all thead button', { hasText: 'Saved' }).click();
        await tab.keyboard.press('/');
        await tab.keyboard.type('strings');
        await tab.keyboard.press('Tab');
        await tab.keyboard.press('j');
        const look = async () => ({
          rows: await rowsShown(tab),
          filter: await tab.locator('#q').inputValue(),
          hash: new URL(tab.url()).hash,
          sort: await tab.locator('#all th[aria-sort]').allInnerTexts(),
        });
        const before = await look();
        expect(before.rows.length).toBeGreaterThan(1);
        expect(before.hash).toMatch(/^#(?=.*\bsel=)(?=.*\bq=strings)(?=.*\bsort=)/);
        await tab.reload();
        expect(await look()).toEqual(before);
      }));

    it('takes a bare id, and an address that means nothing, without complaint', async () => {
      await open(async (tab) => {
        const id = await tab.locator('#maps section[data-instrument]').nth(5).getAttribute('id');
        await tab.evaluate((hash) => (location.hash = hash), id ?? '');
        const top = () =>
          tab.locator(`#${id ?? ''}`).evaluate((own) => own.getBoundingClientRect().top);
        await expect.poll(top).toBeLessThan(500);
        expect(await top()).toBeGreaterThan(-100);
        expect(await rowsShown(tab)).toHaveLength(at().pages.made.demo.overview.instruments.length);
      });
      await open(async (tab) => {
        expect(await rowsShown(tab)).toHaveLength(at().pages.made.demo.overview.instruments.length);
      }, '#sel=%zz&sort=99x&q=&unknown=<b>');
    });

    it('leads to a step with its instrument in sight', () =>
      open(async (tab) => {
        const links = tab.locator('#technician a[href^="#w"]');
        const to = (await links.first().getAttribute('href')) ?? '';
        await links.first().click();
        const heading = tab.locator(`tbody:has(${to}) tr:first-child`);
        const top = () => heading.evaluate((one) => one.getBoundingClientRect().top);
        await expect.poll(top).toBeLessThan(800);
        expect(await top()).toBeGreaterThanOrEqual(0);
      }));

    it('leads back to where one was', () =>
      open(async (tab) => {
        await tab.locator('nav a[href="#maps"]').click();
        await tab.locator('nav a[href="#matrix"]').click();
        expect(new URL(tab.url()).hash).toBe('#matrix');
        await tab.goBack();
        expect(new URL(tab.url()).hash).toBe('#maps');
        const top = () => tab.locator('#maps').evaluate((one) => one.getBoundingClientRect().top);
        await expect.poll(async () => Math.abs(await top())).toBeLessThan(200);
      }));

    it('leaves letters alone where something else has the focus, or on the reader’s word', () =>
      open(async (tab) => {
        const focused = (): Promise<string> =>
          tab.evaluate(() =>
            document.activeElement?.closest('#all') === null ? 'elsewhere' : 'in',
          );
        await tab.locator('#maps tbody svg[tabindex="0"]').first().focus();
        await tab.keyboard.press('j');
        expect(await focused()).toBe('elsewhere');
        await tab.getByRole('button', { name: 'Letter keys off' }).click();
        await tab.evaluate(() => {
          if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
        });
        await tab.keyboard.press('j');
        expect(await focused()).toBe('elsewhere');
        await tab.getByRole('button', { name: 'Letter keys on' }).click();
        await tab.evaluate(() => {
          if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
        });
        await tab.keyboard.press('j');
        expect(await focused()).toBe('in');
      }));

    it('shows where the focus is, and goes from top to bottom', () =>
      open(async (tab) => {
        const places: number[] = [];
        const names: string[] = [];
        for (let i = 0; i < 40; i++) {
          await tab.keyboard.press('Tab');
          const seen = await tab.evaluate(() => {
            const element = document.activeElement!;
            const { outlineStyle, outlineWidth } = getComputedStyle(element);
            const { top } = element.getBoundingClientRect();
            return {
              name: element.outerHTML.slice(0, 80),
              hasOutline: outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 1,
              top: top + window.scrollY,
            };
          });
          expect(seen.hasOutline, seen.name).toBe(true);
          places.push(seen.top);
          names.push(seen.name);
        }
        expect(names[0]).toContain('class="skip"');
        // In one line of links tops differ by a few pixels.
        places.slice(2).forEach((top, i) => {
          expect(top, `${names[i + 1]!} then ${names[i + 2]!}`).toBeGreaterThan(
            places[i + 1]! - 30,
          );
        });
      }));
  });
