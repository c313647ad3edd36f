import { mkdirSync, readFileSync, readdirSync, rmSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { FolderDraft } from '../../src/files/folder-draft.ts';
import type { FolderCalls } from '../../src/files/folder-calls.ts';
import type { FolderOptions } from '../../src/files/check-folder.ts';
import type { OutputFile, Piece } from '../../src/trim/output-file.ts';

/** A folder of its own, gone after `use`. */
export const inPlace = async (use: (at: (name: string) => string) => Promise<void>) => {
  const folder = mkdtempSync(join(tmpdir(), 'keepset-draft-'));
  try {
    await use((name) => (name === '' ? folder : `${folder}/${name}`));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

export const put = (path: string, content: string | Uint8Array = path): void => {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, content);
};

/** All that is below a folder: files with what they hold, folders as null. */
export const all = (folder: string): Readonly<Record<string, string | null>> =>
  Object.fromEntries(
    readdirSync(folder, { recursive: true, withFileTypes: true })
      .map((entry): readonly [string, string | null] => {
        const full = join(entry.parentPath, entry.name);
        const content = entry.isFile() ? readFileSync(full, 'latin1') : null;
        return [full.slice(folder.length + 1), content];
      })
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );

export const text = (path: string, content = path): OutputFile => ({
  path,
  pieces: [{ kind: 'bytes', bytes: new TextEncoder().encode(content) }],
});

export const copy = (path: string, size: number, start = 0, length = size - start): Piece => ({
  ...{ kind: 'copy', path, start, length, size },
});

/** The list that makes a folder one that was written whole. */
export const list = (files: Readonly<Record<string, string>>, more: object = {}): string =>
  JSON.stringify({
    schema: 'keepset/trim@1',
    files: Object.entries(files).map(([path, content]) => ({ path, bytes: content.length })),
    ...more,
  });

/** Writes a folder that was made before. */
export const putOurs = (folder: string, files: Readonly<Record<string, string>>): void => {
  for (const [path, content] of Object.entries(files)) put(`${folder}/${path}`, content);
  put(`${folder}/trim.json`, list(files));
};

export const options = (more: Partial<FolderOptions> = {}): FolderOptions => ({
  force: false,
  inputs: [],
  bytes: 0,
  ...more,
});

/** The whole way, as a caller goes it. */
export const writeFolder = async (
  out: string,
  files: readonly OutputFile[],
  how: FolderOptions = options(),
  calls?: FolderCalls,
): Promise<string | null> => {
  const draft = await FolderDraft.open(out, how, calls);
  try {
    for (const file of files) await draft.write(file);
    return await draft.finish();
  } catch (error) {
    await draft.discard();
    throw error;
  }
};

export const refused = (code: string, file: string, args?: object) => ({
  name: 'InputError',
  finding: { code, file, ...(args === undefined ? {} : { args }) },
});
