import { isAbsolute, relative, sep } from 'node:path';
import glob from 'fast-glob';
import { InputError } from '../terms/errors.ts';
import type { FileInfo, Files } from '../terms/files.ts';
import { identityOf } from './linked-files.ts';

/**
 * The paths that a pattern matches, folders left out. Names with a leading dot match only a pattern
 * that has one too.
 *
 * @throws {InputError} when a folder on the way can't be read: cues in it would be passed over
 */
export const matching = async (files: Files, pattern: string): Promise<readonly string[]> => {
  const disk = new PatternDisk(files, isAbsolute(pattern));
  const fs = {
    lstat: answering((path) => disk.stat(path)),
    stat: answering((path) => disk.stat(path)),
    readdir: answering((path) => disk.list(path)),
  };
  return glob(pattern, { onlyFiles: true, fs: fs as unknown as Partial<glob.FileSystemAdapter> });
};

/** What the pattern library wants to know of an entry. */
interface Entry {
  readonly name: string;
  readonly isFile: () => boolean;
  readonly isDirectory: () => boolean;
  readonly isSymbolicLink: () => boolean;
  readonly isBlockDevice: () => boolean;
  readonly isCharacterDevice: () => boolean;
  readonly isFIFO: () => boolean;
  readonly isSocket: () => boolean;
}

/** {@link Files} as the pattern library sees a disk: without links, and without circles. */
class PatternDisk {
  readonly #files: Files;
  readonly #absolute: boolean;
  /** What each folder that was listed really is. */
  readonly #listed = new Map<string, string>();

  constructor(files: Files, absolute: boolean) {
    this.#files = files;
    this.#absolute = absolute;
  }

  /** A path as it was typed: the library asks for full ones. */
  #typed(path: string): string {
    const own = this.#absolute ? path : relative('.', path);
    return own === '' ? '.' : own.replaceAll(sep, '/');
  }

  async stat(path: string): Promise<Entry> {
    const info = await this.#files.info(this.#typed(path));
    if (info === null) throw notThere();
    return entry('', info);
  }

  async list(path: string): Promise<readonly Entry[]> {
    const folder = this.#typed(path);
    if ((await this.#files.info(folder))?.kind !== 'folder') throw notThere();
    const identity = await identityOf(this.#files, folder);
    if (foldersAbove(folder).some((above) => this.#listed.get(above) === identity)) return [];
    this.#listed.set(folder, identity);
    const names = await this.#files.list(folder);
    return Promise.all(
      names.map(async (name) => {
        const at = `${folder.replace(/\/+$/, '')}/${name}`;
        return entry(name, await this.#files.info(at).catch(nothing));
      }),
    );
  }
}

/** A link in a circle is one that leads nowhere. */
const nothing = (error: unknown): null => {
  if (error instanceof InputError) return null;
  throw error;
};

const no = (): boolean => false;

/** All that is no folder counts as a file: where it is none, reading it says so. */
const entry = (name: string, info: FileInfo | null): Entry => ({
  name,
  isFile: () => info?.kind !== 'folder',
  isDirectory: () => info?.kind === 'folder',
  isSymbolicLink: no,
  isBlockDevice: no,
  isCharacterDevice: no,
  isFIFO: no,
  isSocket: no,
});

/** The library passes over what does not exist, and knows it by this. */
const notThere = (): Error => Object.assign(new Error('nothing is there'), { code: 'ENOENT' });

/** @example foldersAbove('cues/reel 1/old') // ['cues/reel 1', 'cues', '.'] */
const foldersAbove = (path: string): readonly string[] => {
  const above: string[] = [];
  for (let at = path.lastIndexOf('/'); at > 0; at = path.lastIndexOf('/', at - 1)) {
    above.push(path.slice(0, at));
  }
  return [...above, '.'];
};

/** Hands a result to the last argument, as the library expects it. */
const answering =
  <T>(ask: (path: string) => Promise<T>) =>
  (path: string, ...rest: readonly unknown[]): void => {
    const done = rest.at(-1) as (error: Error | null, result?: T) => void;
    ask(path).then(
      (result) => {
        done(null, result);
      },
      (error: unknown) => {
        done(error as Error);
      },
    );
  };
