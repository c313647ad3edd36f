import { pageAssets } from '../files/page-assets.ts';
import type { Overview } from '../overview/overview.ts';
import { reportPage } from '../report/page/report-page.ts';
import { fittedPage } from '../report/page/size/fitted-page.ts';

/**
 * The page for people: one HTML file that holds all it needs, from what `report` has found out. Where it
 * would be larger than 2 MiB it tells less, never of figures: the data in it say what was left out
 * (`reduced`).
 *
 * @returns its text; the same overview gives the same text
 * @example await writeFile('report.html', await page(await report({ cues: ['cues/'] })))
 */
export const page = async (overview: Overview): Promise<string> => {
  const assets = await pageAssets();
  const make = (shown: Overview): string => reportPage(shown, assets);
  return fittedPage(overview, { make, bytesOf: (html) => Buffer.byteLength(html) });
};
