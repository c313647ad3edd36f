import { join } from 'node:path';
import { demoFiles } from '../demo/demo.ts';
import { DiskFiles } from '../files/disk-files.ts';
import { makeFolderOf, writeWhole } from '../files/write-whole.ts';
import { inputError } from '../terms/errors.ts';

/**
 * Writes the invented score and its instruments into a folder; the same bytes every time. Files that
 * are there already are left as they are, if they hold just that.
 *
 * @returns the paths below `folder`
 * @throws {InputError} `output-exists` when another file is in the way: nothing is written then
 */
export const demo = async (folder: string): Promise<readonly string[]> => {
  const disk = new DiskFiles();
  const missing: { readonly path: string; readonly bytes: Uint8Array }[] = [];
  const files = demoFiles();
  for (const { path, bytes } of files) {
    const full = join(folder, path);
    const info = await disk.info(full);
    if (info === null) missing.push({ path: full, bytes });
    else if (info.kind !== 'file' || !same(await disk.read(full), bytes)) {
      throw inputError('output-exists', full, {});
    }
  }
  for (const { path, bytes } of missing) {
    await makeFolderOf(path);
    await writeWhole(path, bytes);
  }
  return files.map(({ path }) => path);
};

const same = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, i) => byte === b[i]);
