import { cp } from 'node:fs/promises';
import { expect } from 'vitest';
import { once } from '../once.ts';
import { keepset } from './keepset.ts';
import { test as base, type Folder } from './material.ts';

/** The demo score and its plan, `keep.json`: made once for all tests. Read only. */
const original = (): Promise<string> =>
  once('demo', async (folder) => {
    for (const args of [
      ['demo', '--out', '.', '-q'],
      ['plan', '-q', '-o', 'keep.json'],
    ]) {
      expect(await keepset(args, { cwd: folder })).toMatchObject({ code: 0 });
    }
  });

/** `demo`: a copy of the demo score and its plan, `keep.json`. */
export const test = base.extend<{ demo: Folder }>({
  demo: async ({ folder }, use) => {
    await cp(await original(), folder.path, { recursive: true });
    await use(folder);
  },
});
