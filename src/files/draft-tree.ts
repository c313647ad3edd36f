import { inputError } from '../terms/errors.ts';
import { attempt, tried } from './attempt.ts';
import type { FolderCalls } from './folder-calls.ts';
import { isSame, type Identity } from './lies-in.ts';

/**
 * The folders and files that were made in one folder, and whether they are still there: nothing is
 * written through a link that took the place of a folder, and nothing that is missing counts as written.
 */
export class DraftTree {
  readonly #calls: FolderCalls;
  readonly #folder: string;
  readonly #out: string;
  /** What each folder is, by path; the folder itself is ''. */
  readonly #folders = new Map<string, Identity>();
  /** How many bytes each file has, by path. */
  readonly #files = new Map<string, number>();
  #isThere = false;

  /** @param out what is named when something fails */
  constructor(calls: FolderCalls, folder: string, out: string) {
    this.#calls = calls;
    this.#folder = folder;
    this.#out = out;
  }

  /** False as long as not even the folder itself is made. */
  get isThere(): boolean {
    return this.#isThere;
  }

  has(path: string): boolean {
    return this.#files.has(path);
  }

  /** Makes a folder; '' for the folder itself. @throws {InputError} `output-unwritable` */
  makeFolder(path: string): void {
    if (path !== '') this.#verifyFolder(folderOf(path));
    const full = this.#full(path);
    attempt(this.#out, () => this.#calls.makeFolder(full));
    this.#isThere = true;
    const made = attempt(this.#out, () => this.#calls.lstat(full));
    this.#folders.set(path, made);
  }

  /**
   * Makes a file.
   *
   * @param write writes it, and gives how many bytes
   * @throws {InputError} `output-unwritable`
   */
  async makeFile(path: string, write: (descriptor: number) => Promise<number>): Promise<void> {
    this.#verifyFolder(folderOf(path));
    const descriptor = attempt(this.#out, () => this.#calls.openNew(this.#full(path)));
    let bytes: number;
    try {
      bytes = await write(descriptor);
    } catch (error) {
      tried(() => this.#calls.close(descriptor));
      throw error;
    }
    attempt(this.#out, () => this.#calls.close(descriptor));
    this.#files.set(path, bytes);
  }

  /** Makes sure that all of it is there. @throws {InputError} `output-unwritable` */
  verify(): void {
    for (const folder of this.#folders.keys()) this.#verifyFolder(folder);
    for (const [path, bytes] of this.#files) {
      const now = attempt(this.#out, () => this.#calls.lstat(this.#full(path)));
      if (!now.isFile() || Number(now.size) !== bytes) throw this.#meddledWith();
    }
  }

  /**
   * Every folder on the way is looked at: where one of them has become a link, what lies behind it may
   * have the number of a folder that is gone.
   */
  #verifyFolder(path: string): void {
    if (path !== '') this.#verifyFolder(folderOf(path));
    const now = attempt(this.#out, () => this.#calls.lstat(this.#full(path)));
    const made = this.#folders.get(path);
    if (made === undefined || !now.isDirectory() || !isSame(now, made)) throw this.#meddledWith();
  }

  /** Without a slash at its end: a link would be looked through. */
  #full(path: string): string {
    return path === '' ? this.#folder : `${this.#folder}/${path}`;
  }

  #meddledWith(): Error {
    return inputError('output-unwritable', this.#out, { reason: 'somebody changed it meanwhile' });
  }
}

const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf('/')));
