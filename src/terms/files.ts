/** What a path names. `other` is a device, a pipe or a socket: never read. */
export interface FileInfo {
  readonly kind: 'file' | 'folder' | 'other';
  readonly size: number;
}

/**
 * The disk as the pure folders see it. `files/` holds the real one and an in-memory twin for tests.
 * Paths are strings with `/`; every method rejects with an {@link InputError} that names the path.
 */
export interface Files {
  /** What is at `path`, or null when nothing is. */
  info(path: string): Promise<FileInfo | null>;
  /** `length` bytes from `offset`, fewer only at the end of the file; without both, the whole file. */
  read(path: string, offset?: number, length?: number): Promise<Uint8Array>;
  /** The names in a folder, in code point order. */
  list(path: string): Promise<readonly string[]>;
}
