import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { pages, projectFolder } from './pages.ts';

/** The picture is made by a script with a browser, which not every machine has. */
const madeElsewhere = ['docs/pictures/page.png'];

const textOf = (page: string): string => readFileSync(join(projectFolder, page), 'utf8');

const withoutCode = (text: string): string =>
  text.replace(/^```[^]*?^```/gm, '').replace(/`[^`\n]*`/g, '');

/** A heading as links name it: lower case, blanks as hyphens, other marks left out. */
const anchorOf = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, '')
    .trim()
    .replaceAll(' ', '-');

const anchorsOf = (text: string): readonly string[] =>
  [...text.replace(/^```[^]*?^```/gm, '').matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) =>
    anchorOf(heading),
  );

const all = [...pages, 'DEVELOPERS.md', 'CHANGELOG.md'];

test.each(all)('links of %s lead somewhere', (page) => {
  for (const [, target = ''] of withoutCode(textOf(page)).matchAll(/\]\(([^)\s]+)\)/g)) {
    if (/^[a-z]+:/.test(target)) continue;
    const [path = '', anchor] = target.split('#');
    const file = path === '' ? page : join(dirname(page), path);
    if (madeElsewhere.includes(file)) continue;
    expect(existsSync(join(projectFolder, file)), `${page}: ${target}`).toBe(true);
    if (anchor !== undefined) expect(anchorsOf(textOf(file)), target).toContain(anchor);
  }
});

test('every page of the manual is in its index, and the index in the README', () => {
  const index = textOf('docs/README.md');
  for (const page of pages.filter((one) => /^docs\/(?!README)/.test(one))) {
    expect(index, page).toContain(`](${page.slice('docs/'.length)})`);
  }
  expect(textOf('README.md')).toContain('](docs/README.md)');
});
