import { posix } from 'node:path';
import { inputError } from '../terms/errors.ts';
import type { FileInfo, Files, OpenFile } from '../terms/files.ts';
import { bytesOf, lengthOf, type OutputFile } from '../trim/output-file.ts';

/** A disk on which files are already there that are only planned: what they will hold is put together when it is read. */
export class PlannedFiles implements Files {
  readonly #disk: Files;
  readonly #planned = new Map<string, OutputFile>();
  /** Names in each folder that is planned. */
  readonly #folders = new Map<string, Set<string>>();

  /** @param folder where the planned files will be, as `disk` sees it */
  constructor(disk: Files, folder: string, files: readonly OutputFile[]) {
    this.#disk = disk;
    for (const file of files) {
      let path = posix.join(folder, file.path);
      this.#planned.set(path, file);
      while (path !== posix.normalize(folder)) {
        const parent = posix.dirname(path);
        const names = this.#folders.get(parent) ?? new Set<string>();
        names.add(posix.basename(path));
        this.#folders.set(parent, names);
        path = parent;
      }
    }
  }

  info(path: string): Promise<FileInfo | null> {
    const full = posix.normalize(path);
    const file = this.#planned.get(full);
    if (file !== undefined) return Promise.resolve({ kind: 'file', size: bytesOf(file) });
    if (this.#folders.has(full)) return Promise.resolve({ kind: 'folder', size: 0 });
    return this.#disk.info(full);
  }

  async read(path: string, offset = 0, length = Infinity): Promise<Uint8Array> {
    const full = posix.normalize(path);
    const file = this.#planned.get(full);
    if (file === undefined) {
      return this.#disk.read(full, offset, length === Infinity ? undefined : length);
    }
    const parts: Uint8Array[] = [];
    const end = Math.min(offset + length, bytesOf(file));
    let at = 0;
    for (const piece of file.pieces) {
      const size = lengthOf(piece);
      const from = Math.max(offset - at, 0);
      const to = Math.min(end - at, size);
      at += size;
      if (from >= to) continue;
      parts.push(
        piece.kind === 'bytes'
          ? piece.bytes.subarray(from, to)
          : await this.#disk.read(piece.path, piece.start + from, to - from),
      );
    }
    return joined(parts);
  }

  async open<Result>(
    path: string,
    use: (file: OpenFile) => Promise<Result>,
  ): Promise<Result | null> {
    const full = posix.normalize(path);
    const file = this.#planned.get(full);
    if (file === undefined) return this.#disk.open(full, use);
    const read = (offset: number, length: number) => this.read(full, offset, length);
    return use({ size: bytesOf(file), read });
  }

  list(path: string): Promise<readonly string[]> {
    const full = posix.normalize(path);
    const names = this.#folders.get(full);
    if (names !== undefined) return Promise.resolve([...names].sort());
    if (this.#planned.has(full)) return Promise.reject(inputError('path-not-a-file', path, {}));
    return this.#disk.list(full);
  }
}

const joined = (parts: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};
