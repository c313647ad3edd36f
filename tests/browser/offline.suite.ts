import { describe, expect, it } from 'vitest';
import { openPage, type Setting } from './open-page.ts';
import { pageNames } from './pages.ts';

/** A script that no page of ours has; it says so if it runs. */
const injected = '<script>window.injectedRan = true</script>';

export const offlineSuite = (at: () => Setting) =>
  describe('keeps to itself', () => {
    it.each(pageNames)('the %s page asks for nothing and complains of nothing', async (name) => {
      const { browser, pages } = at();
      const { url } = pages.made[name];
      const { tab, requests, complaints, close } = await openPage(browser, url);
      await tab.keyboard.press('/');
      await tab.keyboard.press('Escape');
      await tab.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
      expect(requests).toEqual([url]);
      expect(complaints).toEqual([]);
      await close();
    });

    it('has a policy that allows its own script and style by their digests, and nothing else', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.demo.url);
      const policy = await tab
        .locator('meta[http-equiv="Content-Security-Policy"]')
        .getAttribute('content');
      const rules = new Map(
        (policy ?? '').split(';').map((rule) => {
          const [name = '', ...sources] = rule.trim().split(/\s+/);
          return [name, sources.join(' ')];
        }),
      );
      expect(rules.get('default-src')).toBe("'none'");
      expect(rules.get('script-src')).toMatch(/^'sha256-[\w+/]{43}='$/);
      expect(rules.get('style-src')).toMatch(/^'sha256-[\w+/]{43}='$/);
      expect(rules.get('base-uri')).toBe("'none'");
      expect(rules.get('form-action')).toBe("'none'");
      expect(policy).not.toMatch(/unsafe|\*|https?:|data:/);
      await close();
    });

    it('runs no script that someone writes into it', async () => {
      const { browser, pages } = at();
      const { html } = pages.made.demo;
      const changed = html.replace('<main', `${injected}<main`);
      expect(changed).not.toBe(html);
      const { tab, complaints, close } = await openPage(browser, pages.write('injected', changed));
      expect(await tab.evaluate(() => 'injectedRan' in window)).toBe(false);
      // The refusal is told, which shows that the script was met; the page's own still runs.
      expect(complaints.join('\n')).toMatch(/Content Security Policy/);
      await expect.poll(() => tab.locator('#q').isVisible()).toBe(true);
      await close();
    });

    it('refuses what a script of its own would fetch', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.demo.url);
      const outcome = await tab.evaluate(() =>
        fetch('http://127.0.0.1:9/').then(
          () => 'fetched',
          (error: unknown) => String(error),
        ),
      );
      expect(outcome).toMatch(/TypeError/);
      await close();
    });
  });
