import { InputError } from '../../../terms/errors.ts';
import type { Files } from '../../../terms/files.ts';
import type { Finding } from '../../../terms/finding.ts';
import { shown } from '../../zone-table/cell-text.ts';
import type { Inclusion, Place, SfzDocument, SfzFile } from './document.ts';
import { Draft } from './draft.ts';
import { limits } from './limits.ts';
import { NearFiles } from './near-files.ts';
import { folderOf, pathFrom, plainPath } from './paths.ts';
import { readSfzFile } from './read-file.ts';
import { Remarks } from './remarks.ts';
import { FileScanner, type Include } from './scan-file.ts';

/**
 * Reads an SFZ file and what it includes (the open SFZ documentation, "#include"): paths start at the
 * folder of the root file, and what is included stands where the directive does.
 *
 * @param path the root file
 * @throws {InputError} when it, or a file that it includes, can't be read or trusted; all missing
 *   includes at once
 */
export const readDocument = (files: Files, path: string): Promise<SfzDocument> =>
  new Reading(files, path).read();

/** As many missing files as a person looks for before trying again. */
const mostMissing = 20;

/** A file that is being read, and what it is known by. */
interface Open {
  readonly key: string;
  readonly inclusion: number;
  readonly scanner: FileScanner;
}

class Reading {
  readonly #disk: Files;
  readonly #near: NearFiles;
  readonly #path: string;
  readonly #files: SfzFile[] = [];
  readonly #inclusions: Inclusion[] = [];
  readonly #remarks = new Remarks(this.#files);
  readonly #draft = new Draft(this.#remarks);
  /** Index in `files` by plain path. */
  readonly #known = new Map<string, number>();
  /** Where files are whose paths were written otherwise; null where nothing is. */
  readonly #found = new Map<string, string | null>();
  readonly #missing: Finding[] = [];
  readonly #open: Open[] = [];
  #bytes = 0;
  #characters = 0;
  #includes = 0;

  constructor(disk: Files, path: string) {
    this.#disk = disk;
    this.#near = new NearFiles(disk);
    this.#path = path;
  }

  async read(): Promise<SfzDocument> {
    await this.#enter(plainPath(this.#path), this.#path, null, '');
    for (let last = this.#open.at(-1); last !== undefined; last = this.#open.at(-1)) {
      const include = last.scanner.next();
      if (include === null) this.#open.pop();
      else await this.#include(include);
    }
    this.#checkMissing();
    return {
      files: this.#files,
      inclusions: this.#inclusions,
      headers: this.#draft.headers,
      findings: this.#remarks.findings(),
    };
  }

  async #include({ path: written, place }: Include): Promise<void> {
    this.#includes += 1;
    this.#check('includes', this.#includes, limits.includes, place);
    this.#check('depth', this.#open.length, limits.depth, place);
    this.#check('path', written.length, limits.path, place);
    const { path, outside } = pathFrom(folderOf(this.#path), written);
    const found = await this.#find(path);
    if (found === null) {
      const args = { path: shown(written) };
      this.#missing.push(this.#remarks.error('sfz-include-missing', place, args).finding);
      if (this.#missing.length === mostMissing) this.#checkMissing();
      return;
    }
    const at = this.#open.findIndex(({ key }) => key === found);
    if (at >= 0) {
      const chain = [...this.#open.slice(at).map(({ key }) => key), found];
      throw this.#remarks.error('sfz-include-cycle', place, { chain });
    }
    if (outside) this.#remarks.add('note', 'sfz-include-outside', place, { path: shown(written) });
    if (found !== path) {
      this.#remarks.add('warning', 'sfz-include-case', place, { path: shown(written), found });
    }
    await this.#enter(found, found, place, written);
  }

  /** Where an included file is; null when it is nowhere. */
  async #find(path: string): Promise<string | null> {
    if (this.#known.has(path)) return path;
    const before = this.#found.get(path);
    if (before !== undefined) return before;
    const isThere = (await this.#disk.info(path))?.kind === 'file';
    const found = isThere ? path : await this.#near.find(path);
    this.#found.set(path, found);
    return found;
  }

  /**
   * @param place the directive that includes the file; null for the root
   * @param written the path that it names
   */
  async #enter(key: string, path: string, place: Place | null, written: string): Promise<void> {
    let number = this.#known.get(key);
    if (number === undefined) {
      const file = await readSfzFile(this.#disk, path, limits.text - this.#bytes);
      this.#bytes += file.text.length;
      number = this.#files.push(file) - 1;
      this.#known.set(key, number);
      if (file.encoding !== 'utf-8') {
        const start = { file: number, start: 0, end: 0, line: 1, column: 1 };
        this.#remarks.add('note', 'sfz-encoding', start, { encoding: file.encoding });
      }
    }
    const { text } = this.#files[number]!;
    this.#characters += text.length;
    if (place !== null) this.#check('text', this.#characters, limits.text, place);
    const parent = this.#open.at(-1)?.inclusion ?? -1;
    const inclusion = this.#inclusions.push({ file: number, parent, place, written }) - 1;
    const scanner = new FileScanner(number, inclusion, text, this.#draft);
    this.#open.push({ key, inclusion, scanner });
  }

  #checkMissing(): void {
    const [first, ...others] = this.#missing;
    if (first !== undefined) throw new InputError(first, others);
  }

  #check(
    what: 'includes' | 'depth' | 'path' | 'text',
    amount: number,
    limit: number,
    place: Place,
  ): void {
    if (amount > limit) throw this.#remarks.error('sfz-too-large', place, { what, limit });
  }
}
