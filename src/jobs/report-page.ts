import { pageAssets } from '../files/page-assets.ts';
import type { Overview } from '../overview/overview.ts';
import { reportPage } from '../report/page/report-page.ts';

/**
 * The page for people: one HTML file that holds all it needs, from what `report` has found out.
 *
 * @returns its text; the same overview gives the same text
 * @example await writeFile('report.html', await page(await report({ cues: ['cues/'] })))
 */
export const page = async (overview: Overview): Promise<string> =>
  reportPage(overview, await pageAssets());
