import { execFileSync } from 'node:child_process';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { needs } from '../tools.ts';
import { openPage, printCalls, type Setting } from './open-page.ts';

const hasReader = needs('pdftotext', 'poppler-utils');

/** The text of each page of paper, as it lies on it. */
const paper = async (tab: Page): Promise<readonly string[]> => {
  const pdf = await tab.pdf({ format: 'A4', preferCSSPageSize: true });
  const text = execFileSync('pdftotext', ['-layout', '-', '-'], {
    ...{ input: pdf, encoding: 'utf8', maxBuffer: 2 ** 26 },
  });
  return text.split('\f').slice(0, -1);
};

const linesOf = (page: string): readonly string[] =>
  page
    .split('\n')
    .map((line) => line.replace(/\s+/g, ' ').trim())
    .filter((line) => line !== '');

export const printSuite = (at: () => Setting) =>
  describe('on paper', () => {
    it('has no controls, and is light even for those who like it dark', async () => {
      const { browser, pages } = at();
      const { tab, close } = await openPage(browser, pages.made.demo.url, { colorScheme: 'light' });
      const look = () =>
        tab.evaluate(() => {
          const { color, backgroundColor } = getComputedStyle(document.documentElement);
          const body = getComputedStyle(document.body);
          return [color, backgroundColor, body.color, body.backgroundColor];
        });
      await tab.emulateMedia({ media: 'print' });
      const light = await look();
      await tab.emulateMedia({ media: 'print', colorScheme: 'dark' });
      expect(await look()).toEqual(light);
      await tab.emulateMedia({ media: 'screen', colorScheme: 'dark' });
      expect(await look()).not.toEqual(light);
      await tab.getByRole('button', { name: 'Dark' }).click();
      await tab.emulateMedia({ media: 'print', colorScheme: 'dark' });
      expect(await look()).toEqual(light);
      const controls = await tab.evaluate(() =>
        [...document.querySelectorAll('button, input, select, nav, .skip, output')]
          .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height > 0)
          .map(({ outerHTML }) => outerHTML.slice(0, 80)),
      );
      expect(controls).toEqual([]);
      await close();
    });

    describe.skipIf(!hasReader)('page by page', () => {
      it.each(['demo', 'missing'] as const)(
        'the %s page: numbered, with the digest, headings with their rows',
        async (name) => {
          const { browser, pages } = at();
          const { overview, url } = pages.made[name];
          const { tab, close } = await openPage(browser, url);
          const sheets = await paper(tab);
          expect(sheets.length).toBeGreaterThan(2);
          sheets.forEach((sheet, i) => {
            expect(sheet).toContain(`page ${String(i + 1)} of ${String(sheets.length)}`);
            expect(sheet.replace(/\s/g, '')).toContain(overview.keep.sha256);
          });
          const steps = overview.worklist.flatMap(({ actions }) => actions);
          const isHeading = (line: string): boolean =>
            steps.some(
              ({ instrument }) => line === instrument || line.startsWith(`${instrument}, `),
            );
          const from = sheets.findIndex((sheet) => linesOf(sheet).includes('Worklist'));
          expect(from).toBeGreaterThan(0);
          const headings = sheets.slice(from).flatMap((sheet) => {
            const lines = linesOf(sheet);
            return lines.flatMap((line, i) =>
              isHeading(line) ? [{ line, next: lines.slice(i + 1) }] : [],
            );
          });
          expect(headings.length).toBeGreaterThan(5);
          for (const { line, next } of headings) {
            // What a step is about may take several lines, and its number stands beside the middle one.
            const step = next.findIndex((one) => /^\d+ (load|unload|do not)\b/.test(one));
            const end = next.findIndex(isHeading);
            expect(step, line).toBeGreaterThan(-1);
            if (end >= 0) expect(step, line).toBeLessThan(end);
          }
          // All steps are on paper, in their order.
          const printed = sheets
            .slice(from)
            .flatMap(linesOf)
            .flatMap((line) => /^(\d+) (?:load|unload|do not)\b/.exec(line)?.[1] ?? []);
          expect(printed.map(Number)).toEqual(steps.map(({ number }) => number));
          // Maps and wide tables are for the screen, unless all is asked for.
          expect(sheets.join('\n')).not.toContain('Keys that stay');
          await close();
        },
      );

      it('everything, when everything is asked for', async () => {
        const { browser, pages } = at();
        const { overview, url } = pages.made.demo;
        const { tab, close } = await openPage(browser, url);
        const calls = () =>
          tab.evaluate((name) => Reflect.get(window, name) as string[], printCalls);
        await tab.getByRole('button', { name: 'Print everything' }).click();
        expect(await calls()).toHaveLength(1);
        const sheets = await paper(tab);
        const text = sheets.join('\n');
        expect(text).toContain('Keys that stay');
        for (const { id } of overview.instruments) expect(text).toContain(id);
        expect(text).toContain('To load');
        await tab.getByRole('button', { name: 'Print the worklist' }).click();
        expect(await calls()).toHaveLength(2);
        const fewer = await paper(tab);
        expect(fewer.length).toBeLessThan(sheets.length);
        expect(fewer.join('\n')).toContain('Worklist');
        expect(fewer.join('\n')).not.toContain('Keys that stay');
        await close();
      });
    });
  });
