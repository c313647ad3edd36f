import { afterAll, beforeAll, describe } from 'vitest';
import { accessSuite } from './access.suite.ts';
import { hasChromium, startChromium } from './chromium.ts';
import { controlsSuite } from './controls.suite.ts';
import { figuresSuite } from './figures.suite.ts';
import { mapsSuite } from './maps.suite.ts';
import { namesSuite } from './names.suite.ts';
import { offlineSuite } from './offline.suite.ts';
import type { Setting } from './open-page.ts';
import { makePages } from './pages.ts';
import { printSuite } from './print.suite.ts';
import { rowsSuite } from './rows.suite.ts';
import { sizeSuite } from './size.suite.ts';
import { withoutScriptSuite } from './without-script.suite.ts';

/** The page as a browser shows it. One browser for all, and each page is made once. */
describe.skipIf(!hasChromium)('the page in Chromium', () => {
  let setting: Setting | undefined;
  beforeAll(async () => {
    setting = { pages: await makePages(), browser: await startChromium() };
  }, 300_000);
  afterAll(async () => {
    await setting?.browser.close();
    setting?.pages.remove();
  });
  const at = (): Setting => {
    if (setting === undefined) throw new Error('nothing was made');
    return setting;
  };

  offlineSuite(at);
  accessSuite(at);
  withoutScriptSuite(at);
  controlsSuite(at);
  mapsSuite(at);
  figuresSuite(at);
  rowsSuite(at);
  namesSuite(at);
  printSuite(at);
  sizeSuite(at);
});
