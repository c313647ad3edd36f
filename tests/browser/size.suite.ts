import { describe, expect, it } from 'vitest';
import { largeSize } from './large-overview.ts';
import { openPage, type Setting } from './open-page.ts';
import type { PageName } from './pages.ts';

const mostBytes = 2 * 1024 * 1024;

export const sizeSuite = (at: () => Setting) =>
  describe('with 150 instruments and 60 cues', () => {
    it('is under 2 MiB', () => {
      const { html, overview } = at().pages.made.large;
      expect(overview.instruments).toHaveLength(largeSize.instruments);
      expect(overview.cues).toHaveLength(largeSize.cues);
      expect(Buffer.byteLength(html)).toBeLessThan(mostBytes);
    });

    it('opens, in time that grows no faster than the page', async () => {
      const { browser, pages } = at();
      const opening = async (name: PageName): Promise<number> => {
        const { tab, close } = await openPage(browser, pages.made[name].url);
        const took = await tab.evaluate(() => {
          const [entry] = performance.getEntriesByType('navigation');
          return (entry as PerformanceNavigationTiming).domComplete;
        });
        expect(await tab.locator('#all tbody tr').count()).toBe(
          pages.made[name].overview.instruments.length,
        );
        await close();
        return took;
      };
      const [small, large] = [await opening('demo'), await opening('large')];
      const growth = pages.made.large.html.length / pages.made.demo.html.length;
      // Thrice the growth, and half a second for a machine that does something else meanwhile.
      expect(large).toBeLessThan(small * growth * 3 + 500);
    });
  });
