import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, mkdir, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { test as plainTest } from 'vitest';
import { bank, plainCue } from '../jobs/small-score.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** A folder of its own for a test, gone after it. */
export class Folder {
  readonly path: string;

  constructor(path: string) {
    this.path = path;
  }

  /** Writes files, and the folders that they are in. */
  async write(files: Readonly<Record<string, Uint8Array | string>>): Promise<void> {
    for (const [name, content] of Object.entries(files)) {
      await mkdir(dirname(this.at(name)), { recursive: true });
      await writeFile(this.at(name), content);
    }
  }

  at(name: string): string {
    return join(this.path, name);
  }

  /** Names of all files below it with what they hold: to see that nothing was written or changed. */
  async state(): Promise<Readonly<Record<string, string>>> {
    const entries = await readdir(this.path, { recursive: true, withFileTypes: true });
    const state: Record<string, string> = {};
    for (const entry of entries.filter((one) => one.isFile())) {
      const path = join(entry.parentPath, entry.name);
      const name = path.slice(this.path.length + 1);
      const { size } = await stat(path);
      state[name] = size < 2 ** 24 ? sha256(await readFile(path)) : `${size} bytes`;
    }
    return state;
  }
}

/** False where the system has no named pipes. */
export const hasPipes = spawnSync('mkfifo', ['--version']).error === undefined;
if (!hasPipes) console.log('skipped: everything with named pipes (no mkfifo)');

/** A pipe that nobody writes to: whoever opens it to read waits for ever. */
export const makePipe = (path: string): Promise<void> => {
  spawnSync('mkfifo', [path]);
  return Promise.resolve();
};

/** `folder`: empty; `score`: `cues/1m1.mid` ({@link plainCue}) and `bank.sf2` ({@link bank}). */
export const test = plainTest.extend<{ folder: Folder; score: Folder }>({
  folder: async ({}, use) => {
    const folder = new Folder(await mkdtemp(join(tmpdir(), 'keepset-')));
    await use(folder);
    await rm(folder.path, { recursive: true, force: true });
  },
  score: async ({ folder }, use) => {
    await folder.write({ 'cues/1m1.mid': plainCue(), 'bank.sf2': bank() });
    await use(folder);
  },
});
