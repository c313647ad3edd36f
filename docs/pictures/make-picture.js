// @ts-check
/**
 * Makes docs/pictures/page.png: the page of the demo, from its head to what the composer reads. The
 * program must be built, and Debian's Chromium be there. Run it with `npm run picture`.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { demo, page, report } from '../../dist/index.js';
import { smallPng } from './small-png.js';

const width = 1200;
/** How many instruments of the composer's part are in the picture. */
const instruments = 8;
const mostBytes = 150_000;
const picture = fileURLToPath(new URL('page.png', import.meta.url));

const folder = mkdtempSync(join(tmpdir(), 'keepset-picture-'));
const before = process.cwd();
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
try {
  await demo(folder);
  process.chdir(folder);
  const file = join(folder, 'page.html');
  writeFileSync(file, await page(await report({ title: 'The Harbour' })));
  const tab = await browser.newPage({
    viewport: { width, height: 900 },
    colorScheme: 'light',
    reducedMotion: 'reduce',
  });
  await tab.goto(pathToFileURL(file).href);
  const last = await tab
    .locator('#composer [data-instrument]')
    .nth(instruments - 1)
    .boundingBox();
  if (last === null) throw new Error('the page has no part for the composer');
  const height = Math.ceil(last.y + last.height + 8);
  const png = await tab.screenshot({ fullPage: true, clip: { x: 0, y: 0, width, height } });
  const small = smallPng(png);
  if (small.length > mostBytes) throw new Error(`the picture has ${small.length} bytes`);
  writeFileSync(picture, small);
  console.log(`${picture}: ${width} x ${height}, ${small.length} bytes`);
} finally {
  process.chdir(before);
  await browser.close();
  rmSync(folder, { recursive: true });
}
