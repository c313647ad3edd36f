import { plainPath } from '../../instruments/sfz/text/paths.ts';
import { byCodePoint } from '../../terms/code-point-order.ts';
import { inputError } from '../../terms/errors.ts';
import type { FileInfo, Files, OpenFile } from '../../terms/files.ts';

/** A disk that holds nothing but texts that are to be written. */
export class WrittenFiles implements Files {
  readonly #bytes: ReadonlyMap<string, Uint8Array>;
  readonly #folders = new Map<string, Set<string>>();

  constructor(outputs: readonly { readonly path: string; readonly bytes: Uint8Array }[]) {
    this.#bytes = new Map(outputs.map(({ path, bytes }) => [plainPath(path), bytes]));
    for (const path of this.#bytes.keys()) this.#addToFolders(path);
  }

  info(path: string): Promise<FileInfo | null> {
    const plain = plainPath(path);
    const size = this.#bytes.get(plain)?.length;
    if (size !== undefined) return Promise.resolve({ kind: 'file', size });
    return Promise.resolve(this.#folders.has(plain) ? { kind: 'folder', size: 0 } : null);
  }

  read(path: string, offset = 0, length = Infinity): Promise<Uint8Array> {
    const bytes = this.#bytes.get(plainPath(path));
    if (bytes === undefined) return Promise.reject(inputError('path-missing', path, {}));
    return Promise.resolve(bytes.slice(offset, Math.min(offset + length, bytes.length)));
  }

  async open<Result>(
    path: string,
    use: (file: OpenFile) => Promise<Result>,
  ): Promise<Result | null> {
    const size = this.#bytes.get(plainPath(path))?.length;
    if (size === undefined) return null;
    return use({ size, read: (offset, length) => this.read(path, offset, length) });
  }

  list(path: string): Promise<readonly string[]> {
    const names = this.#folders.get(plainPath(path));
    if (names === undefined) return Promise.reject(inputError('path-missing', path, {}));
    return Promise.resolve([...names].sort(byCodePoint));
  }

  #addToFolders(path: string): void {
    let at = path;
    for (;;) {
      const slash = at.lastIndexOf('/');
      const folder = plainPath(at.slice(0, slash + 1));
      const names = this.#folders.get(folder);
      const name = at.slice(slash + 1);
      if (names === undefined) this.#folders.set(folder, new Set([name]));
      else names.add(name);
      if (slash <= 0) return;
      at = at.slice(0, slash);
    }
  }
}
