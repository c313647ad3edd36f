import { mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { demo } from '../../src/jobs/demo.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'keepset-demo-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

test('writes each file as it was made, into folders that it makes', async () => {
  const out = join(folder, 'a/b');
  const files = demoFiles();
  expect(await demo(out)).toEqual(files.map(({ path }) => path));
  for (const { path, bytes } of files) {
    expect(Buffer.compare(await readFile(join(out, path)), bytes), path).toBe(0);
  }
});

test('the last file in the way: none of the others is written', async () => {
  const last = demoFiles().at(-1)!.path;
  await demo(folder);
  await writeFile(join(folder, last), 'mine');
  await rm(join(folder, 'README.txt'));
  const file = join(folder, last);
  await expect(demo(folder)).rejects.toMatchObject({ finding: { code: 'output-exists', file } });
  expect(await readdir(folder)).not.toContain('README.txt');
  expect(await readFile(file, 'utf8')).toBe('mine');
});
