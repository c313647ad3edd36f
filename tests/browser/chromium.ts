import { chromium, type Browser } from 'playwright-core';
import { needs } from '../tools.ts';

/** Debian's Chromium: no browser is fetched for the tests. */
const executable = '/usr/bin/chromium';

/** False without Chromium: the reason is printed then, or is a failure where tools are required. */
export const hasChromium = needs(executable, 'chromium');

/** Chromium as it runs where the tests do: without a sandbox of its own and without graphics. */
export const startChromium = (): Promise<Browser> =>
  chromium.launch({ executablePath: executable, args: ['--no-sandbox', '--disable-gpu'] });
