/// <reference lib="dom" />
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { ranFlag } from './hostile-overview.ts';
import type { Pages } from './pages.ts';

/** What all suites share: one browser, and the pages made once. */
export interface Setting {
  readonly browser: Browser;
  readonly pages: Pages;
}

/** A tab with a page in it, and all that it asked for and complained about. */
export interface OpenPage {
  readonly tab: Page;
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
  readonly close: () => Promise<void>;
}

/** Calls of `window.print`, which no test lets through: by the class of the document then. */
export const printCalls = 'printCalls';

const quiet = (name: string): void => {
  const calls: string[] = [];
  Object.assign(window, { [name]: calls });
  window.print = () => {
    calls.push(document.documentElement.className);
  };
};

/** Opens a page in a context of its own: wide, light, with all motion, unless told otherwise. */
export const openPage = async (
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<OpenPage> => {
  const context = await browser.newContext({
    ...{ viewport: { width: 1280, height: 900 }, colorScheme: 'light' },
    ...options,
  });
  const tab = await context.newPage();
  const requests: string[] = [];
  const complaints: string[] = [];
  tab.on('request', (request) => requests.push(request.url()));
  tab.on('pageerror', (error) => complaints.push(String(error)));
  tab.on('console', (message) => complaints.push(`${message.type()}: ${message.text()}`));
  tab.on('dialog', (dialog) => {
    complaints.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  if (options.javaScriptEnabled !== false) await tab.addInitScript(quiet, printCalls);
  await tab.goto(url);
  return { tab, requests, complaints, close: () => context.close() };
};

/** Whether some name was run as a script. */
export const somethingRan = (tab: Page): Promise<boolean> =>
  tab.evaluate((flag) => flag in window, ranFlag);
