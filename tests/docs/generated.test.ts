import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { format, resolveConfig } from 'prettier';
import { expect, test } from 'vitest';
import * as library from '../../src/index.ts';
import { generatedAnew, readSchema } from './generated.ts';
import { isUpdate, pages, projectFolder } from './pages.ts';
import { keysOf } from './schema-tables.ts';

const textOf = (page: string): string => readFileSync(join(projectFolder, page), 'utf8');

const withSections = pages.filter((page) => textOf(page).includes('<!-- generated: '));

test('the pages that are made from the program are there', () => {
  expect(withSections).toEqual(
    expect.arrayContaining([
      'docs/library.md',
      ...['commands', 'findings', 'json'].map((name) => `docs/reference/${name}.md`),
    ]),
  );
});

test.each(withSections)('%s says what the program says', async (page) => {
  const path = join(projectFolder, page);
  const options = { ...(await resolveConfig(path)), filepath: path };
  const made = await format(await generatedAnew(textOf(page)), options);
  if (isUpdate) writeFileSync(path, made);
  else expect(textOf(page)).toBe(made);
});

test.each(['template', 'outline'])('every key of the %s stands on its page', (name) => {
  const page = textOf(`docs/reference/${name}.md`);
  const keys = [...keysOf(readSchema(`${name}@1`))];
  expect(keys.length).toBeGreaterThan(15);
  const rows = page.split('\n').map((line) => /^\| `(?:[\w-]+: )?([\w-]+)`/.exec(line)?.[1]);
  expect(keys.filter((key) => !rows.includes(key))).toEqual([]);
});

test('every exported function of the library has a line', () => {
  const page = textOf('docs/library.md');
  const missing = Object.keys(library).filter((name) => !page.includes(`| \`${name}`));
  expect(missing).toEqual([]);
});
