import { inputError } from '../terms/errors.ts';
import { attempt, orMissing, tried } from './attempt.ts';
import type { FolderCalls } from './folder-calls.ts';
import { isSame, type Identity } from './lies-in.ts';

interface State extends Identity {
  readonly size: bigint;
  readonly mtimeNs: bigint;
}

/** A file that stretches are copied from, open meanwhile. Nobody may change or replace it. */
export class SourceFile {
  readonly path: string;
  readonly #calls: FolderCalls;
  readonly #descriptor: number;
  readonly #before: State;

  private constructor(calls: FolderCalls, path: string, descriptor: number, before: State) {
    this.path = path;
    this.#calls = calls;
    this.#descriptor = descriptor;
    this.#before = before;
  }

  /** @throws {InputError} `path-missing`, `path-not-a-file`, `path-unreadable` */
  static open(calls: FolderCalls, path: string): SourceFile {
    const descriptor = attempt(
      path,
      () => orMissing(() => calls.openSource(path)),
      'path-unreadable',
    );
    if (descriptor === null) throw inputError('path-missing', path, {});
    try {
      const stats = attempt(path, () => calls.fstat(descriptor), 'path-unreadable');
      if (!stats.isFile()) throw inputError('path-not-a-file', path, {});
      return new SourceFile(calls, path, descriptor, stats);
    } catch (error) {
      tried(() => calls.close(descriptor));
      throw error;
    }
  }

  /** @throws {InputError} `path-changed-while-read` when it has another size than it had when it was looked at */
  expect(size: number): void {
    if (Number(this.#before.size) !== size) throw changed(this.path);
  }

  /** Reads as many bytes as go into `into`. @throws {InputError} `path-unreadable`, `path-changed-while-read` */
  fill(into: Uint8Array, start: number): void {
    let filled = 0;
    while (filled < into.length) {
      const [rest, at] = [into.subarray(filled), start + filled];
      const read = attempt(
        this.path,
        () => this.#calls.read(this.#descriptor, rest, at),
        'path-unreadable',
      );
      if (read === 0) throw changed(this.path);
      filled += read;
    }
  }

  /** Makes sure that its path still leads to it, as it was. @throws {InputError} `path-changed-while-read` */
  verify(): void {
    const now = attempt(
      this.path,
      () => orMissing(() => this.#calls.stat(this.path)),
      'path-unreadable',
    );
    const before = this.#before;
    if (
      now === null ||
      !isSame(now, before) ||
      now.size !== before.size ||
      now.mtimeNs !== before.mtimeNs
    ) {
      throw changed(this.path);
    }
  }

  /** All that was asked of it was read: a failure loses nothing. */
  close(): void {
    tried(() => this.#calls.close(this.#descriptor));
  }
}

const changed = (path: string): Error => inputError('path-changed-while-read', path, {});
