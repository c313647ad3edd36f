import { inputError } from '../terms/errors.ts';

/** What no name in a folder has: control characters, halves of characters, the other slash. */
const hostileSign = /[\p{Cc}\p{Cs}\\]/u;

/**
 * The paths of what is written into one folder: all below it, and apart on every disk. Callers make
 * paths that are; here is the last look.
 */
export class DraftNames {
  /** By path without capitals and forms of accents. */
  readonly #taken = new Map<string, { readonly path: string; readonly isFolder: boolean }>();

  /**
   * Takes the place of a file.
   *
   * @param path within the folder, with `/`
   * @returns the folders on the way that are new, the uppermost first
   * @throws {InputError} `trim-path` when it leads elsewhere; `trim-names-collide`
   */
  take(path: string): readonly string[] {
    const names = path.split('/');
    if (
      names.some((name) => name === '' || name === '.' || name === '..') ||
      hostileSign.test(path) ||
      // A drive, where there are drives.
      /^[A-Za-z]:/.test(path)
    ) {
      throw inputError('trim-path', path, { path, reason: 'hostile' });
    }
    const folders = names.slice(1).map((_, i) => names.slice(0, i + 1).join('/'));
    const made = folders.filter((folder) => this.#isNew(folder, true));
    if (!this.#isNew(path, false)) throw collision(path, path);
    return made;
  }

  #isNew(path: string, isFolder: boolean): boolean {
    const key = path.normalize('NFC').toLowerCase();
    const other = this.#taken.get(key);
    if (other === undefined) {
      this.#taken.set(key, { path, isFolder });
      return true;
    }
    if (other.path !== path || other.isFolder !== isFolder) throw collision(other.path, path);
    return false;
  }
}

const collision = (first: string, second: string): Error =>
  inputError('trim-names-collide', second, { first, second });
