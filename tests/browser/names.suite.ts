import { describe, expect, it } from 'vitest';
import { openPage, somethingRan, type Setting } from './open-page.ts';

export const namesSuite = (at: () => Setting) =>
  describe('takes names for text', () => {
    it('makes no element of them, and runs none', async () => {
      const { browser, pages } = at();
      const { tab, complaints, close } = await openPage(browser, pages.made.hostile.url);
      // Choosing cells has the script write names too.
      for (const strip of (await tab.locator('#maps section svg[role]').all()).slice(0, 12)) {
        const box = await strip.boundingBox();
        if (box !== null) await strip.click({ position: { x: box.width / 2, y: box.height / 2 } });
      }
      await tab.keyboard.press('/');
      await tab.keyboard.type('onerror');
      const made = await tab.evaluate(() => ({
        images: document.querySelectorAll('img, iframe, object, embed, link, base').length,
        scripts: document.querySelectorAll('script').length,
        events: [...document.querySelectorAll('*')].flatMap((element) =>
          element.getAttributeNames().filter((name) => name.startsWith('on')),
        ),
        comments: document.evaluate('count(//body//comment())', document).numberValue,
      }));
      const { tab: other, close: closeOther } = await openPage(browser, pages.made.missing.url);
      const scripts = await other.locator('script').count();
      await closeOther();
      expect(made).toEqual({ images: 0, scripts, events: [], comments: 0 });
      expect(await somethingRan(tab)).toBe(false);
      expect(complaints).toEqual([]);
      await close();
    });

    it('shows them in a form that can be read, the same in the title', async () => {
      const { browser, pages } = at();
      const { overview, url } = pages.made.hostile;
      const { tab, close } = await openPage(browser, url);
      const text = await tab.locator('body').innerText();
      const first = overview.instruments[0]!.id;
      expect(first).toMatch(/<img/);
      expect(text).toContain(first);
      // What turns the direction of a line, or controls a terminal, is spelt out or left away.
      expect(text).not.toMatch(
        /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/,
      );
      const title = await tab.title();
      expect(title).not.toBe('');
      expect(title.length).toBeLessThan(400);
      expect(title).not.toMatch(/[\u0000-\u001f\u202a-\u202e\u2066-\u2069]/);
      await close();
    });
  });
