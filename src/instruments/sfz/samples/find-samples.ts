import type { Files } from '../../../terms/files.ts';
import { NearFiles } from '../text/near-files.ts';
import type { AskedFile } from './region-samples.ts';
import { readSample, type SampleResult } from './sample-reader.ts';
import { sideBySide } from './side-by-side.ts';

/** A file that was asked for and is there. */
export interface FoundFile {
  /** Its path on the disk: the same for every way to write it. */
  readonly path: string;
  /**
   * as-written; kept: where readers look that keep an earlier `default_path`; near: under a name that
   * differs in capitals or in the form of its accents.
   */
  readonly by: 'as-written' | 'kept' | 'near';
  readonly result: SampleResult;
}

/** Files that are read at a time. */
const atATime = 16;

/** Finds the files and reads their headers, each file once; null for one that is nowhere. */
export const findSamples = async (
  files: Files,
  asked: readonly AskedFile[],
): Promise<ReadonlyMap<AskedFile, FoundFile | null>> => {
  const search = new Search(files);
  const found = new Map<AskedFile, FoundFile | null>();
  const direct = await sideBySide(asked, atATime, (file) => search.directly(file));
  asked.forEach((file, i) => found.set(file, direct[i]!));
  const missing = asked.filter((_, i) => direct[i] === null);
  const near = await search.near(missing);
  missing.forEach((file, i) => found.set(file, near[i]!));
  return search.oneNameEach(found);
};

class Search {
  readonly #files: Files;
  readonly #near: NearFiles;
  readonly #results = new Map<string, Promise<SampleResult | null>>();

  constructor(files: Files) {
    this.#files = files;
    this.#near = new NearFiles(files);
  }

  /** Under the paths as they are written. */
  async directly(asked: AskedFile): Promise<FoundFile | null> {
    const { path, kept, outside, keptOutside } = asked;
    const result = await this.#read(path, outside);
    if (result !== null) return { path, by: 'as-written', result };
    const other = kept === null ? null : await this.#read(kept, keptOutside);
    return kept === null || other === null ? null : { path: kept, by: 'kept', result: other };
  }

  /** Under names that come near; one after the other, so that each folder is listed once. */
  async near(asked: readonly AskedFile[]): Promise<readonly (FoundFile | null)[]> {
    const paths: (string | null)[] = [];
    for (const { path, kept } of asked) {
      const found = await this.#near.find(path);
      paths.push(found ?? (kept === null ? null : await this.#near.find(kept)));
    }
    return sideBySide(paths, atATime, async (path): Promise<FoundFile | null> => {
      const result = path === null ? null : await this.#read(path, true);
      return path === null || result === null ? null : { path, by: 'near', result };
    });
  }

  /**
   * Two paths that differ in capitals lead to one file on a disk that takes them for the same. The
   * names in its folder tell.
   */
  async oneNameEach(
    found: ReadonlyMap<AskedFile, FoundFile | null>,
  ): Promise<ReadonlyMap<AskedFile, FoundFile | null>> {
    const alike = new Map<string, Set<string>>();
    for (const file of found.values()) {
      if (file === null) continue;
      const key = file.path.normalize('NFC').toLowerCase();
      const paths = alike.get(key);
      if (paths === undefined) alike.set(key, new Set([file.path]));
      else paths.add(file.path);
    }
    const names = new Map<string, string>();
    for (const paths of alike.values()) {
      if (paths.size < 2) continue;
      for (const path of paths) names.set(path, (await this.#near.find(path)) ?? path);
    }
    if (names.size === 0) return found;
    return new Map(
      [...found].map(([asked, file]) => {
        const path = file === null ? undefined : names.get(file.path);
        if (file === null || path === undefined || path === file.path) return [asked, file];
        return [asked, { ...file, path, by: 'near' }];
      }),
    );
  }

  #read(path: string, outside: boolean): Promise<SampleResult | null> {
    let result = this.#results.get(path);
    if (result === undefined) {
      result = readSample(this.#files, path, outside);
      this.#results.set(path, result);
    }
    return result;
  }
}
