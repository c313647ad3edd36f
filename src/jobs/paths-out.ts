import { realpath } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';

/** Paths of a template, as seen from the working folder and from the folder that is written. */
export class PathsOut {
  /** The folder that is written, from the root of the disk and without links. */
  readonly out: string;
  readonly #folder: string;
  /** Of the template, in the same way: steps upwards from there are steps on the real disk. */
  readonly #home: string;

  private constructor(folder: string, home: string, out: string) {
    this.#folder = folder;
    this.#home = home;
    this.out = out;
  }

  /**
   * @param folder of the template
   * @param out the folder to write, which need not be there yet
   */
  static async from(folder: string, out: string): Promise<PathsOut> {
    const full = resolve(out);
    const home = await realFolder(resolve(folder));
    return new PathsOut(folder, home, join(await realFolder(dirname(full)), basename(full)));
  }

  /** As the reader of the template joins them: what a step upwards leads to, links decide. */
  fromHere(path: string): string {
    return isAbsolute(path) || this.#folder === '.' ? path : `${this.#folder}/${path}`;
  }

  fromOut(path: string): string {
    return withSlashes(relative(this.out, resolve(this.#home, path)));
  }
}

const withSlashes = (path: string): string => path.replaceAll(sep, '/');

/** Of a folder that is not there yet, as far as it is. */
const realFolder = async (path: string): Promise<string> => {
  try {
    return await realpath(path);
  } catch {
    const parent = dirname(path);
    return parent === path ? path : join(await realFolder(parent), basename(path));
  }
};
