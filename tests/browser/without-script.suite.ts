import { describe, expect, it } from 'vitest';
import { openPage, type Setting } from './open-page.ts';

const sections = [
  ...['verdict', 'technician', 'composer', 'mix', 'instruments', 'maps', 'matrix', 'reel'],
  ...['findings', 'worklist'],
];

export const withoutScriptSuite = (at: () => Setting) =>
  describe('without JavaScript', () => {
    it('shows every section, table and map, and nothing that would do nothing', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.missing;
      const { tab, close } = await openPage(browser, url, { javaScriptEnabled: false });
      for (const id of sections) expect(await tab.locator(`#${id}`).isVisible(), id).toBe(true);

      // `evaluate` asks the browser itself, which still answers when the page may run nothing.
      const seen = await tab.evaluate(() => {
        const shown = (element: Element): boolean =>
          element.checkVisibility({ visibilityProperty: true }) &&
          element.getBoundingClientRect().height > 0;
        const hiddenOf = (what: string): string[] =>
          [...document.querySelectorAll(what)]
            .filter((element) => !shown(element))
            .map(({ outerHTML }) => outerHTML.slice(0, 80));
        return {
          controls: [...document.querySelectorAll('button, input, select, textarea')]
            .filter(shown)
            .map(({ outerHTML }) => outerHTML),
          hiddenTables: hiddenOf('main table'),
          hiddenRows: hiddenOf('main tbody tr'),
          hiddenMaps: hiddenOf('#maps section svg'),
          maps: document.querySelectorAll('#maps section[data-instrument]').length,
          emptyFigures: [...document.querySelectorAll('[data-bytes]')].filter(
            (element) => element.textContent.trim() === '',
          ).length,
          text: document.body.innerText,
        };
      });
      const { text, maps, ...none } = seen;
      expect(none).toEqual({
        ...{ controls: [], hiddenTables: [], hiddenRows: [], hiddenMaps: [], emptyFigures: 0 },
      });
      expect(maps).toBe(overview.instruments.filter(({ zones }) => zones > 0).length);
      // Words about keys to press are for those who have them.
      expect(text).not.toMatch(/to filter|arrow keys|to clear/);
      await close();
    });

    it('says the zones of every layer of every map', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.demo;
      const { tab, close } = await openPage(browser, url, { javaScriptEnabled: false });
      const seen = await tab
        .locator('#maps section[data-instrument]')
        .evaluateAll((maps) =>
          maps.map((map) => [
            map.getAttribute('data-instrument'),
            (map as HTMLElement).innerText.match(/\b\d+\/\d+\b/g) ?? [],
          ]),
        );
      expect(seen).toEqual(
        overview.instruments.map(({ id, articulations }) => [
          id,
          articulations
            .filter(({ zonesKept }) => zonesKept > 0)
            .flatMap(({ rows }) =>
              rows.map(({ zones, zonesKept }) => `${String(zonesKept)}/${String(zones)}`),
            ),
        ]),
      );
      await close();
    });
  });
