import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { PageAssets } from '../report/page/report-page.ts';

/** From the built program and from the source alike: both lie one folder below the package. */
const folder = new URL('../../src/report/page/assets/', import.meta.url);

const sha256Base64 = (text: string): string =>
  createHash('sha256').update(text, 'utf8').digest('base64');

/** The script and the style of the page for people, as they lie in the package. */
export const pageAssets = async (): Promise<PageAssets> => {
  const [script, style] = await Promise.all(
    ['page.js', 'page.css'].map((name) => readFile(new URL(name, folder), 'utf8')),
  );
  return { script: script ?? '', style: style ?? '', sha256Base64 };
};
