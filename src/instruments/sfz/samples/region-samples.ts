import { inputError } from '../../../terms/errors.ts';
import { limits } from '../text/limits.ts';
import { folderOf, pathFrom, withSlashes } from '../text/paths.ts';
import type { Control, Region, SfzStructure } from '../structure/regions.ts';

/** A sample file as regions ask for it: its path from `<control>` and the value of `sample`. */
export interface AskedFile {
  /** The value as it stands in the instrument. */
  readonly value: string;
  readonly control: Control;
  /** Without `.` and empty parts, from where the root file's own path starts. */
  readonly path: string;
  /** The same with the path that readers keep from one `<control>` to the next; null when it is `path`. */
  readonly kept: string | null;
  /** True when `path`, or `kept`, leads out of the instrument's folder. */
  readonly outside: boolean;
  readonly keptOutside: boolean;
}

/** What the `sample` of a region names. */
export type RegionSample =
  | { readonly kind: 'none' | 'silence' | 'generator' }
  | { readonly kind: 'embedded'; readonly name: string }
  | { readonly kind: 'file'; readonly file: AskedFile };

/** A path as it is written, with slashes. */
export const askedPath = ({ control, value }: AskedFile): string =>
  withSlashes(control.defaultPath + value);

/** {@link askedPath} for readers that keep the path of an earlier `<control>`. */
export const keptPath = ({ control, value }: AskedFile): string =>
  withSlashes(control.keptPath + value);

/**
 * What each region plays (the open SFZ documentation, "sample" and "default_path"): generators begin with
 * an asterisk, the name of a `<sample>` header is the sound in it, anything else is a file. Regions that
 * write it alike share one {@link AskedFile}.
 *
 * @param root the path of the root file: paths start in its folder
 * @throws {InputError} `samples-paths-too-long` when all paths together would only fill the memory
 */
export const regionSamples = (root: string, structure: SfzStructure): readonly RegionSample[] => {
  const asked = new AskedFiles(root);
  return structure.regions.map((region): RegionSample => {
    const value = sampleOf(region);
    if (value === '') return { kind: 'none' };
    if (structure.embedded.has(value)) return { kind: 'embedded', name: value };
    if (!value.startsWith('*')) return { kind: 'file', file: asked.of(region.control, value) };
    return { kind: value.toLowerCase() === '*silence' ? 'silence' : 'generator' };
  });
};

const sampleOf = ({ opcodes }: Region): string =>
  opcodes.findLast(({ name }) => name === 'sample')?.value ?? '';

class AskedFiles {
  readonly #root: string;
  readonly #folder: string;
  /** By the two paths of `<control>`, then by value. */
  readonly #known = new Map<string, Map<string, AskedFile>>();
  /** Where the folders of written paths lead, by those folders with a slash at the end. */
  readonly #folders = new Map<string, { readonly path: string; readonly outside: boolean }>();
  #characters = 0;

  constructor(root: string) {
    this.#root = root;
    this.#folder = folderOf(root);
  }

  of(control: Control, value: string): AskedFile {
    const key = `${control.defaultPath}\0${control.keptPath}`;
    let values = this.#known.get(key);
    if (values === undefined) this.#known.set(key, (values = new Map<string, AskedFile>()));
    let file = values.get(value);
    if (file === undefined) values.set(value, (file = this.#make(control, value)));
    return file;
  }

  #make(control: Control, value: string): AskedFile {
    const { defaultPath, keptPath: kept } = control;
    this.#characters += defaultPath.length + kept.length + 2 * (value.length + this.#folder.length);
    if (this.#characters > limits.text) {
      throw inputError('samples-paths-too-long', this.#root, { limit: limits.text });
    }
    const { path, outside } = this.#pathOf(defaultPath + value);
    const other = kept === defaultPath ? null : this.#pathOf(kept + value);
    const keptOutside = other?.outside ?? false;
    return { value, control, path, kept: other?.path ?? null, outside, keptOutside };
  }

  /** Samples are many and their folders few. */
  #pathOf(written: string): { readonly path: string; readonly outside: boolean } {
    const asked = withSlashes(written);
    const start = asked.lastIndexOf('/') + 1;
    const name = asked.slice(start);
    if (name === '' || name === '.' || name === '..') return pathFrom(this.#folder, asked);
    const key = asked.slice(0, start);
    let folder = this.#folders.get(key);
    if (folder === undefined) {
      const { path, outside } = pathFrom(this.#folder, `${key}x`);
      this.#folders.set(key, (folder = { path: path.slice(0, -1), outside }));
    }
    return { path: folder.path + name, outside: folder.outside };
  }
}
