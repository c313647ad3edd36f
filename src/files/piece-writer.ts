import { inputError } from '../terms/errors.ts';
import type { Piece } from '../trim/output-file.ts';
import { attempt } from './attempt.ts';
import type { FolderCalls } from './folder-calls.ts';
import { SourceFile } from './source-file.ts';

/** Bytes that are held before they are written; what is copied passes through here. */
const bufferBytes = 2 ** 20;

/** Writes files from pieces, one after the other, through one buffer. */
export class PieceWriter {
  readonly #calls: FolderCalls;
  /** What is named when writing fails. */
  readonly #out: string;
  readonly #buffer = new Uint8Array(bufferBytes);
  #filled = 0;

  constructor(calls: FolderCalls, out: string) {
    this.#calls = calls;
    this.#out = out;
  }

  /**
   * Writes a file that is open.
   *
   * @param onBytes told of bytes that were written since it was told before, in the middle of copies
   *   too; others may do something meanwhile
   * @throws {InputError} `output-unwritable`; `path-…` about the source of a copy
   */
  async write(
    descriptor: number,
    pieces: readonly Piece[],
    onBytes: (bytes: number) => Promise<void> | void,
  ): Promise<void> {
    this.#filled = 0;
    let source: SourceFile | null = null;
    try {
      for (const piece of pieces) {
        if (piece.kind === 'copy' && source?.path !== piece.path) {
          source?.verify();
          source?.close();
          source = null;
          source = SourceFile.open(this.#calls, piece.path);
        }
        if (piece.kind === 'copy') source?.expect(piece.size);
        const length = piece.kind === 'copy' ? piece.length : piece.bytes.length;
        for (let done = 0; done < length;) {
          const some = Math.min(length - done, bufferBytes - this.#filled);
          const room = this.#buffer.subarray(this.#filled, this.#filled + some);
          if (piece.kind === 'copy') source?.fill(room, piece.start + done);
          else room.set(piece.bytes.subarray(done, done + some));
          this.#filled += some;
          done += some;
          if (this.#filled === bufferBytes) await onBytes(this.#flush(descriptor));
        }
      }
      source?.verify();
      if (this.#filled > 0) await onBytes(this.#flush(descriptor));
    } finally {
      source?.close();
    }
  }

  #flush(descriptor: number): number {
    const bytes = this.#filled;
    for (let done = 0; done < bytes;) {
      const rest = this.#buffer.subarray(done, bytes);
      const written = attempt(this.#out, () => this.#calls.write(descriptor, rest));
      if (written === 0) throw inputError('output-unwritable', this.#out, { reason: 'EIO' });
      done += written;
    }
    this.#filled = 0;
    return bytes;
  }
}
