import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { PageAssets } from '../report/page/report-page.ts';

/** From the built program and from the source alike: both lie one folder below the package. */
const folder = new URL('../../src/report/page/assets/', import.meta.url);

const sha256Base64 = (text: string): string =>
  createHash('sha256').update(text, 'utf8').digest('base64');

/** In the order in which they need one another; together they are one script. */
const scripts = ['data', 'address', 'instruments', 'maps', 'tools', 'start'];

const read = (name: string): Promise<string> => readFile(new URL(name, folder), 'utf8');

/** The script and the style of the page for people, as they lie in the package. */
export const pageAssets = async (): Promise<PageAssets> => {
  const parts = await Promise.all(scripts.map((name) => read(`script/${name}.js`)));
  const script = `'use strict';(() => {\n${parts.join('\n')}})();\n`;
  return { script, style: await read('page.css'), sha256Base64 };
};
