import { inputError } from '../../terms/errors.ts';
import type { Files } from '../../terms/files.ts';

/** Reads one file by ranges and never gets less than it asked for. */
export class RangeReader {
  readonly path: string;
  /** Bytes of the whole file. */
  readonly size: number;
  readonly #files: Files;

  private constructor(files: Files, path: string, size: number) {
    this.#files = files;
    this.path = path;
    this.size = size;
  }

  /** @throws {InputError} when nothing is at `path`, or something that is not a regular file */
  static async open(files: Files, path: string): Promise<RangeReader> {
    const info = await files.info(path);
    if (info === null) throw inputError('path-missing', path, {});
    if (info.kind !== 'file') throw inputError('path-not-a-file', path, {});
    return new RangeReader(files, path, info.size);
  }

  /**
   * `length` bytes from `offset`; the range must lie within {@link size}.
   *
   * @throws {InputError} when the file has become shorter since it was opened
   */
  async read(offset: number, length: number): Promise<Uint8Array> {
    if (length === 0) return new Uint8Array(0);
    const bytes = await this.#files.read(this.path, offset, length);
    if (bytes.length !== length) throw inputError('path-changed-while-read', this.path, {});
    return bytes;
  }
}
