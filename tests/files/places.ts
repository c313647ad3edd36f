import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { DiskFiles } from '../../src/files/disk-files.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import type { Files } from '../../src/terms/files.ts';

export type Contents = Readonly<Record<string, Uint8Array | string>>;

/** Files in a place of their own. */
export interface Place {
  readonly files: Files;
  /** The path of a file there; `name` is relative, with `/`. */
  readonly at: (name: string) => string;
  readonly remove: () => Promise<void>;
}

const onDisk = async (contents: Contents): Promise<Place> => {
  const folder = await mkdtemp(join(tmpdir(), 'keepset-files-'));
  const at = (name: string): string => `${folder}/${name}`;
  for (const [name, content] of Object.entries(contents)) {
    await mkdir(dirname(at(name)), { recursive: true });
    await writeFile(at(name), content);
  }
  return {
    files: new DiskFiles(),
    at,
    remove: () => rm(folder, { recursive: true, force: true }),
  };
};

const inMemory = (contents: Contents): Promise<Place> => {
  const at = (name: string): string => `/place/${name}`;
  const placed = Object.entries(contents).map(([name, content]) => [at(name), content] as const);
  return Promise.resolve({
    files: new MemoryFiles(Object.fromEntries(placed)),
    at,
    remove: () => Promise.resolve(),
  });
};

/** The disk and its twin: what holds for one holds for the other. */
export const twins = [
  { name: 'DiskFiles', place: onDisk },
  { name: 'MemoryFiles', place: inMemory },
] as const;

/** Runs `use` on files in a new place, gone after it. */
export const withFiles = async (
  place: (typeof twins)[number]['place'],
  contents: Contents,
  use: (place: Place) => Promise<void>,
): Promise<void> => {
  const own = await place(contents);
  try {
    await use(own);
  } finally {
    await own.remove();
  }
};
