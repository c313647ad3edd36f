import { mkdtemp, readFile, realpath, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { behindLinks } from '../../src/files/behind-links.ts';
import { writeWhole } from '../../src/files/write-whole.ts';

let folder: string;
beforeAll(async () => {
  folder = await realpath(await mkdtemp(path.join(tmpdir(), 'keepset-links-')));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

test('what is written through a link goes into the file behind it', async () => {
  const [real, link] = [path.join(folder, 'loaded.csv'), path.join(folder, 'link.csv')];
  await writeFile(real, 'before');
  await symlink('loaded.csv', link);
  await writeWhole(await behindLinks(link), 'after');
  expect(await readFile(real, 'utf8')).toBe('after');
  expect(await realpath(link)).toBe(real);
});

test('what is not there yet is written where it was named', async () => {
  const fresh = path.join(folder, 'new.csv');
  expect(await behindLinks(fresh)).toBe(fresh);
});
