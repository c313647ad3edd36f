import { byCodePoint } from '../terms/code-point-order.ts';
import { inputError } from '../terms/errors.ts';
import type { FileInfo, Files, OpenFile } from '../terms/files.ts';

/**
 * A disk in memory, for tests. Folders are implied by the paths of the files in them; paths may hold
 * `.` and `..`. It counts the bytes that were read of each file.
 */
export class MemoryFiles implements Files {
  readonly #contents = new Map<string, Uint8Array>();
  readonly #folders = new Map<string, Set<string>>([['', new Set()]]);
  readonly #bytesRead = new Map<string, number>();

  /** @param contents what each path holds; text is stored as UTF-8 */
  constructor(contents: Readonly<Record<string, Uint8Array | string>>) {
    for (const [path, content] of Object.entries(contents)) {
      const full = normal(path);
      const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
      this.#contents.set(full, bytes);
      for (const { folder, name } of steps(full)) {
        const names = this.#folders.get(folder);
        if (names === undefined) this.#folders.set(folder, new Set([name]));
        else names.add(name);
      }
    }
  }

  /** Bytes that {@link read} and {@link open} have handed out of `path` so far; those read twice count twice. */
  bytesRead(path: string): number {
    return this.#bytesRead.get(normal(path)) ?? 0;
  }

  info(path: string): Promise<FileInfo | null> {
    const full = normal(path);
    const file = this.#contents.get(full);
    if (file !== undefined) return Promise.resolve({ kind: 'file', size: file.length });
    return Promise.resolve(this.#folders.has(full) ? { kind: 'folder', size: 0 } : null);
  }

  read(path: string, offset = 0, length = Infinity): Promise<Uint8Array> {
    const full = normal(path);
    const file = this.#contents.get(full);
    if (file === undefined) {
      const code = this.#folders.has(full) ? 'path-not-a-file' : 'path-missing';
      return Promise.reject(inputError(code, path, {}));
    }
    const bytes = file.slice(offset, Math.min(offset + length, file.length));
    this.#bytesRead.set(full, this.bytesRead(path) + bytes.length);
    return Promise.resolve(bytes);
  }

  async open<Result>(
    path: string,
    use: (file: OpenFile) => Promise<Result>,
  ): Promise<Result | null> {
    const info = await this.info(path);
    if (info === null) return null;
    if (info.kind !== 'file') throw inputError('path-not-a-file', path, {});
    return use({ size: info.size, read: (offset, length) => this.read(path, offset, length) });
  }

  list(path: string): Promise<readonly string[]> {
    const names = this.#folders.get(normal(path));
    if (names === undefined) return Promise.reject(inputError('path-missing', path, {}));
    return Promise.resolve([...names].sort(byCodePoint));
  }
}

/** A path without `.`, `..`, empty parts and a closing slash; the working folder is ''. */
const normal = (path: string): string => {
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part === '..' && parts.length > 0 && parts.at(-1) !== '..') parts.pop();
    else parts.push(part);
  }
  return (path.startsWith('/') ? '/' : '') + parts.join('/');
};

/** Each part of a path with the folder that it lies in. */
const steps = (path: string): readonly { readonly folder: string; readonly name: string }[] => {
  const root = path.startsWith('/') ? '/' : '';
  const names = path.slice(root.length).split('/');
  return names.map((name, depth) => ({ folder: root + names.slice(0, depth).join('/'), name }));
};
