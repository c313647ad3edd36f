import axe from 'axe-core';
import type { BrowserContextOptions } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { openPage, type Setting } from './open-page.ts';
import type { PageName } from './pages.ts';

const narrow = { width: 400, height: 800 };

const looks: readonly [name: string, page: PageName, options: BrowserContextOptions][] = [
  ['light', 'demo', {}],
  ['dark, with what is missing', 'missing', { colorScheme: 'dark' }],
  ['narrow, without motion', 'small', { viewport: narrow, reducedMotion: 'reduce' }],
  ['dark, with what is missing, of a small rig', 'small', { colorScheme: 'dark' }],
  ['in colours that the reader forces', 'demo', { forcedColors: 'active', colorScheme: 'dark' }],
  ['with hostile names, dark and narrow', 'hostile', { colorScheme: 'dark', viewport: narrow }],
];

export const accessSuite = (at: () => Setting) =>
  describe('is for everybody', () => {
    it.each(looks)('axe finds nothing: %s', async (_, name, options) => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made[name].url, options);
      // Through the tools' own door: the page's policy holds back what is written into it.
      const found = await tab.evaluate(
        `(() => { ${axe.source}; return axe.run(document, { resultTypes: ['violations'] }); })()`,
      );
      const { violations, passes } = found as axe.AxeResults;
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`),
      ).toEqual([]);
      expect(passes.map(({ id }) => id)).toContain('color-contrast');
      await close();
    });

    it('a forced dark theme is as clean as that of the system', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.small.url);
      const ground = (): Promise<string> =>
        tab.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
      const light = await ground();
      await tab.getByRole('button', { name: 'Dark' }).click();
      expect(await ground()).not.toBe(light);
      const found = await tab.evaluate(
        `(() => { ${axe.source}; return axe.run(document, { runOnly: ['color-contrast'] }); })()`,
      );
      expect((found as axe.AxeResults).violations).toEqual([]);
      await close();
    });

    it('colours that the reader forces reach what is drawn', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.small.url, {
        ...{ forcedColors: 'active', colorScheme: 'dark' },
      });
      const [text, ...drawn] = await tab.evaluate(() => [
        getComputedStyle(document.body).color,
        ...['.r text', '.drawn text', '.drawn circle'].map(
          (what) => getComputedStyle(document.querySelector(what)!).fill,
        ),
        ...['.s .k', '.drawn .i'].map(
          (what) => getComputedStyle(document.querySelector(what)!).stroke,
        ),
      ]);
      expect(drawn).toEqual(drawn.map(() => text));
      await close();
    });

    it('words stay large enough to read in a narrow window, and links far enough apart', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.demo.url, { viewport: narrow });
      const { root, label, links, cut } = await tab.evaluate(() => {
        const size = (what: string): number =>
          Number.parseFloat(getComputedStyle(document.querySelector(what)!).fontSize);
        // By the scale at which its drawing is shown.
        const { a } = document.querySelector<SVGTextElement>('#reel text')!.getScreenCTM()!;
        return {
          root: size('html'),
          label: size('#reel text') * a,
          links: [...document.querySelectorAll('nav a')].map(
            (one) => one.getBoundingClientRect().height,
          ),
          cut: [...document.querySelectorAll('caption, #reel text, .g tbody th[colspan] > span')]
            .map((one) => [one.textContent, one.getBoundingClientRect()] as const)
            .filter(([, { left, right }]) => left < 0 || right > window.innerWidth)
            .map(([text]) => text),
        };
      });
      expect(label).toBeGreaterThanOrEqual(0.8 * root);
      expect(Math.min(...links)).toBeGreaterThanOrEqual(24);
      expect(cut).toEqual([]);
      await close();
    });

    it('a narrow page is no wider than its window, and nothing moves without need', async () => {
      const { browser, pages } = at();
      for (const name of ['demo', 'hostile'] as const) {
        const { tab, close } = await openPage(browser, pages.made[name].url, {
          ...{ viewport: { width: 360, height: 800 }, reducedMotion: 'reduce' },
        });
        expect(await tab.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
          360,
        );
        const moving = await tab.evaluate(
          () =>
            [...document.querySelectorAll('*')].filter((element) => {
              const { transitionDuration, animationName, scrollBehavior } =
                getComputedStyle(element);
              const moves = /[1-9]/.test(transitionDuration) || animationName !== 'none';
              return moves || scrollBehavior === 'smooth';
            }).length,
        );
        expect(moving).toBe(0);
        await close();
      }
    });
  });
