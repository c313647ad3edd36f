import { NearFiles } from '../../instruments/sfz/text/near-files.ts';
import type { Files } from '../../terms/files.ts';
import { numbered } from './renamed.ts';

/** Names for further copies of a file, beside it, that nothing else has. */
export class FreshNames {
  readonly #near: NearFiles;
  readonly #used: Set<string>;
  readonly #last = new Map<string, number>();

  /** @param used paths that are taken, whatever the disk holds */
  constructor(files: Files, used: readonly string[]) {
    this.#near = new NearFiles(files);
    this.#used = new Set(used.map(folded));
  }

  /** @example await names.near('kits/kit.sfz') // 'kits/kit-2.sfz' */
  async near(path: string): Promise<string> {
    for (let number = (this.#last.get(path) ?? 1) + 1; ; number += 1) {
      const name = numbered(path, number);
      if (this.#used.has(folded(name)) || (await this.#near.find(name)) !== null) continue;
      this.#used.add(folded(name));
      this.#last.set(path, number);
      return name;
    }
  }
}

/** The same for paths that some disk takes for the same. */
export const folded = (path: string): string => path.normalize('NFC').toLowerCase();
