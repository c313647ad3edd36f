import { InputError } from '../terms/errors.ts';
import type { FileInfo, Files, OpenFile } from '../terms/files.ts';
import { identityOf, type LinkedFiles } from './linked-files.ts';

/**
 * A disk as seen from one of its folders: paths are relative to it, in results and errors too. The
 * working folder needs none of this.
 *
 * @param folder with `/`; empty or `.` for the working folder
 */
export const filesIn = (files: Files, folder: string): Files =>
  folder === '' || folder === '.' ? files : new FolderFiles(files, folder);

class FolderFiles implements LinkedFiles {
  readonly #files: Files;
  readonly #folder: string;

  constructor(files: Files, folder: string) {
    this.#files = files;
    this.#folder = folder.replace(/\/+$/, '');
  }

  info(path: string): Promise<FileInfo | null> {
    return this.#ask(path, (full) => this.#files.info(full));
  }

  read(path: string, offset?: number, length?: number): Promise<Uint8Array> {
    return this.#ask(path, (full) => this.#files.read(full, offset, length));
  }

  open<Result>(path: string, use: (file: OpenFile) => Promise<Result>): Promise<Result | null> {
    return this.#ask(path, (full) => this.#files.open(full, use));
  }

  list(path: string): Promise<readonly string[]> {
    return this.#ask(path, (full) => this.#files.list(full));
  }

  identity(path: string): Promise<string | null> {
    return this.#ask(path, (full) => identityOf(this.#files, full));
  }

  async #ask<T>(path: string, ask: (full: string) => Promise<T>): Promise<T> {
    const full = /^(?:\/|[A-Za-z]:[\\/])/.test(path) ? path : `${this.#folder}/${path}`;
    try {
      return await ask(full);
    } catch (error) {
      if (!(error instanceof InputError) || error.finding.file !== full) throw error;
      throw new InputError({ ...error.finding, file: path }, error.others);
    }
  }
}
