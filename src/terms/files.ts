/** What a path names. `other` is a device, a pipe or a socket: never read. */
export interface FileInfo {
  readonly kind: 'file' | 'folder' | 'other';
  readonly size: number;
}

/** A file while it is open. */
export interface OpenFile {
  /** Bytes of the whole file. */
  readonly size: number;
  /** `length` bytes from `offset`, fewer only at the end of the file. */
  readonly read: (offset: number, length: number) => Promise<Uint8Array>;
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
  /**
   * What `use` makes of a file that is open only for it; null when nothing is there. For reading a
   * little of each of thousands of files. Opening a device may set something going: where a path is
   * not to be trusted, ask {@link info} first.
   */
  open<Result>(path: string, use: (file: OpenFile) => Promise<Result>): Promise<Result | null>;
  /** The names in a folder, in code point order. */
  list(path: string): Promise<readonly string[]>;
}
