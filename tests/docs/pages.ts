import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the project, with the README and the manual in it. */
export const projectFolder = fileURLToPath(new URL('../../', import.meta.url));

/** With `UPDATE_DOCS=1` pages are written anew instead of compared; then one test file at a time. */
export const isUpdate = process.env['UPDATE_DOCS'] === '1';

const manual = readdirSync(join(projectFolder, 'docs'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.md'))
  .map((name) => `docs/${name.replaceAll('\\', '/')}`)
  .sort();

/** The README and every page of the manual, by their paths from the project's folder. */
export const pages: readonly string[] = ['README.md', ...manual];
