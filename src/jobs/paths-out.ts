import { realpath } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';

/** Paths of a template, as seen from the working folder and from the folder that is written. */
export class PathsOut {
  readonly #folder: string;
  readonly #out: string;

  private constructor(folder: string, out: string) {
    this.#folder = folder;
    this.#out = out;
  }

  /**
   * @param folder of the template
   * @param out the folder to write, which need not be there yet
   */
  static async from(folder: string, out: string): Promise<PathsOut> {
    const full = resolve(out);
    // Steps upwards from there are steps on the real disk, whatever links lead to it.
    return new PathsOut(folder, join(await realFolder(dirname(full)), basename(full)));
  }

  fromHere(path: string): string {
    if (isAbsolute(path) || this.#folder === '.') return path;
    return withSlashes(join(this.#folder, path));
  }

  fromOut(path: string): string {
    return withSlashes(relative(this.#out, resolve(this.#folder, path)));
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
