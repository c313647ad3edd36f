import { InputError } from '../../../terms/errors.ts';
import type { Files } from '../../../terms/files.ts';
import { namesOf } from './paths.ts';

/**
 * Finds files whose paths differ from the ones asked for in capitals alone, or in how their accents
 * are put together: what a disk that tells them apart hides from an instrument made on one that does
 * not. Each folder is listed once.
 */
export class NearFiles {
  readonly #disk: Files;
  readonly #folders = new Map<string, ReadonlyMap<string, string>>();

  constructor(disk: Files) {
    this.#disk = disk;
  }

  /**
   * @param path without `.` and empty parts
   * @returns null when there is none; of several the first in code point order
   */
  async find(path: string): Promise<string | null> {
    const { root, names } = namesOf(path);
    let at = root;
    for (const name of names) {
      if (name === '..') {
        at += '../';
        continue;
      }
      const inFolder = await this.#namesIn(at === '' ? '.' : at);
      const found = inFolder.get(name) ?? inFolder.get(folded(name));
      if (found === undefined) return null;
      at += `${found}/`;
    }
    const found = at.slice(0, -1);
    return (await this.#disk.info(found))?.kind === 'file' ? found : null;
  }

  /** The names in a folder by themselves and by what they are compared by. */
  async #namesIn(folder: string): Promise<ReadonlyMap<string, string>> {
    const known = this.#folders.get(folder);
    if (known !== undefined) return known;
    const names = await this.#list(folder);
    const first = new Map(names.map((name) => [name, name]));
    for (const name of names) {
      const key = folded(name);
      if (!first.has(key)) first.set(key, name);
    }
    this.#folders.set(folder, first);
    return first;
  }

  /** None where there is no such folder or it cannot be read. */
  async #list(folder: string): Promise<readonly string[]> {
    try {
      return await this.#disk.list(folder);
    } catch (error) {
      if (error instanceof InputError) return [];
      throw error;
    }
  }
}

const folded = (name: string): string => name.normalize('NFC').toLowerCase();
