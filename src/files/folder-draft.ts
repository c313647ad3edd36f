import { randomBytes } from 'node:crypto';
import { setImmediate } from 'node:timers/promises';
import { inputError } from '../terms/errors.ts';
import type { OutputFile } from '../trim/output-file.ts';
import { attempt, tried } from './attempt.ts';
import { lookForPlace, occupantOf, withoutSlash, type FolderOptions } from './check-folder.ts';
import { DraftNames } from './draft-names.ts';
import { DraftTree } from './draft-tree.ts';
import { diskCalls, type FolderCalls } from './folder-calls.ts';
import { listName } from './own-list.ts';
import { PieceWriter } from './piece-writer.ts';
import { takesPlace } from './places-taken.ts';
import { takePlace } from './take-place.ts';

export { checkFolder, type FolderOptions } from './check-folder.ts';

/** In a folder as long as it is not whole. */
const markName = 'UNFINISHED.txt';
const markText = 'This folder was not finished. Do not use it; delete it.\n';

/** After so many bytes others get their turn: a person may want to stop it. */
const bytesPerTurn = 8 * 2 ** 20;
/** What a file costs beside its bytes, as bytes. */
const bytesPerFile = 64 * 2 ** 10;

/**
 * A folder while it is made: beside its place, under another name, marked as unfinished. Whatever
 * happens, even to the process, at its place is what was there before, or nothing, or all of the new
 * folder. When a call fails the draft is gone and further calls fail in the same way.
 */
export class FolderDraft {
  /** Where it is made meanwhile; same parent as its place, so relative paths out of it are the same. */
  readonly folder: string;
  readonly #out: string;
  readonly #options: FolderOptions;
  readonly #calls: FolderCalls;
  readonly #names = new DraftNames();
  readonly #tree: DraftTree;
  readonly #writer: PieceWriter;
  /** Folders above it that were made for it, the lowest first. */
  #above: readonly string[] = [];
  #isBusy = false;
  #isClosed = false;
  #failure: Error | null = null;
  #sinceTurn = 0;
  readonly #whenProcessEnds = (): void => this.#remove();

  private constructor(out: string, options: FolderOptions, calls: FolderCalls) {
    this.#out = out;
    this.#options = options;
    this.#calls = calls;
    this.#writer = new PieceWriter(calls, out);
    this.folder = `${withoutSlash(out)}.${randomBytes(4).toString('hex')}.part`;
    this.#tree = new DraftTree(calls, this.folder, out);
  }

  /**
   * Looks at what is at `out` and makes the folder to work in.
   *
   * @throws {InputError} as `checkFolder`; nothing is left then
   */
  static async open(
    out: string,
    options: FolderOptions,
    calls: FolderCalls = diskCalls,
  ): Promise<FolderDraft> {
    const draft = new FolderDraft(out, options, calls);
    await draft.#guard(() => draft.#make());
    return draft;
  }

  /**
   * Writes one file from its pieces. One after the other: they share what memory there is.
   *
   * @param file its path within the folder
   * @param onBytes told of bytes that were written since it was told before
   * @throws {InputError} `trim-path`, `trim-names-collide`, `output-unwritable`; `path-missing`,
   *   `path-not-a-file`, `path-unreadable`, `path-changed-while-read` about a file that is copied from
   */
  async write(file: OutputFile, onBytes?: (bytes: number) => void): Promise<void> {
    await this.#guard(async () => {
      for (const folder of this.#names.take(file.path)) this.#tree.makeFolder(folder);
      await this.#writeNew(file, onBytes);
      await this.#turn(bytesPerFile);
    });
  }

  /**
   * Takes the place of what is at `out`, which is looked at once more.
   *
   * @returns where the folder that was there before is when it can't be removed, null otherwise
   * @throws {InputError} as `checkFolder`; what was there before is there still
   */
  async finish(): Promise<string | null> {
    return this.#guard(() => {
      this.#tree.verify();
      this.#syncList();
      const occupant = occupantOf(this.#out, this.#options, this.#calls);
      attempt(this.#out, () => this.#calls.removeFile(`${this.folder}/${markName}`));
      takesPlace();
      const left = takePlace(this.#calls, this.folder, withoutSlash(this.#out), occupant);
      this.#close();
      return left;
    });
  }

  /** Removes all of it, as far as the system lets it; never throws. */
  async discard(): Promise<void> {
    await Promise.resolve();
    this.#remove();
  }

  /** Does what may fail, one thing at a time; when it fails, nothing is left. */
  async #guard<T>(act: () => Promise<T> | T): Promise<T> {
    if (this.#failure !== null) throw this.#failure;
    if (this.#isBusy || this.#isClosed) throw new Error('the draft of a folder is busy or closed');
    this.#isBusy = true;
    try {
      return await act();
    } catch (error) {
      this.#failure = error as Error;
      this.#remove();
      throw error;
    } finally {
      this.#isBusy = false;
    }
  }

  async #make(): Promise<void> {
    const [calls, out] = [this.#calls, this.#out];
    const missing = lookForPlace(out, this.#options, calls);
    process.once('exit', this.#whenProcessEnds);
    for (const folder of missing) {
      attempt(out, () => calls.makeFolder(folder));
      this.#above = [folder, ...this.#above];
    }
    this.#tree.makeFolder('');
    this.#names.take(markName);
    const bytes = new TextEncoder().encode(markText);
    await this.#writeNew({ path: markName, pieces: [{ kind: 'bytes', bytes }] });
  }

  async #writeNew({ path, pieces }: OutputFile, onBytes?: (bytes: number) => void): Promise<void> {
    await this.#tree.makeFile(path, async (descriptor) => {
      let written = 0;
      await this.#writer.write(descriptor, pieces, async (bytes) => {
        written += bytes;
        onBytes?.(bytes);
        await this.#turn(bytes);
      });
      return written;
    });
  }

  /** Lets others have their turn when there was enough work. */
  async #turn(bytes: number): Promise<void> {
    this.#sinceTurn += bytes;
    if (this.#sinceTurn < bytesPerTurn) return;
    this.#sinceTurn = 0;
    await setImmediate();
    if (this.#isClosed) throw inputError('output-unwritable', this.#out, { reason: 'given up' });
  }

  /** What is on the disk after a power cut must not have the list and lack what it lists. */
  #syncList(): void {
    if (!this.#tree.has(listName)) return;
    const calls = this.#calls;
    attempt(this.#out, () => {
      const descriptor = calls.openAgain(`${this.folder}/${listName}`);
      try {
        calls.sync(descriptor);
      } finally {
        calls.close(descriptor);
      }
    });
  }

  #remove(): void {
    if (this.#isClosed) return;
    this.#close();
    if (this.#tree.isThere) tried(() => this.#calls.removeAll(this.folder));
    for (const folder of this.#above) tried(() => this.#calls.removeEmpty(folder));
  }

  #close(): void {
    this.#isClosed = true;
    process.off('exit', this.#whenProcessEnds);
  }
}
