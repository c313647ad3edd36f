import { findSamples } from '../../instruments/sfz/samples/find-samples.ts';
import {
  regionSamples,
  type AskedFile,
  type RegionSample,
} from '../../instruments/sfz/samples/region-samples.ts';
import { sideBySide } from '../../instruments/sfz/samples/side-by-side.ts';
import type { SfzStructure } from '../../instruments/sfz/structure/regions.ts';
import { InputError } from '../../terms/errors.ts';
import type { Files } from '../../terms/files.ts';
import type { TrimSet } from '../trim-set.ts';

/** What the regions of an instrument play, and the files that are there. */
export interface PlayedFiles {
  /** One for each region. */
  readonly regions: readonly RegionSample[];
  /** Where files are that are there. */
  readonly found: ReadonlyMap<AskedFile, string>;
  /** Files that regions play which stay loaded, each once, by the first of them. */
  readonly loaded: readonly { readonly path: string; readonly size: number }[];
  /** Bytes of all sample files that are there, each once. */
  readonly bytes: number;
  /** Every path at which a sample is looked for. */
  readonly asked: ReadonlySet<string>;
}

/** Files that are looked at at a time. */
const atATime = 16;

/** Finds the sample files of an instrument where its reader finds them. */
export const playedFiles = async (
  files: Files,
  root: string,
  structure: SfzStructure,
  { loaded }: TrimSet,
): Promise<PlayedFiles> => {
  const regions = regionSamples(root, structure);
  const asked = new Set(regions.flatMap((one) => (one.kind === 'file' ? [one.file] : [])));
  const found = await findSamples(files, [...asked]);
  const needed = new Set<string>();
  regions.forEach((one, number) => {
    const path = one.kind === 'file' ? found.get(one.file)?.path : undefined;
    if (path !== undefined && loaded.has(number)) needed.add(path);
  });
  const paths = new Set([...found.values()].flatMap((file) => (file === null ? [] : [file.path])));
  const sizes = new Map<string, number>();
  await sideBySide([...paths], atATime, async (path) => {
    const size = await sizeOf(files, path, needed.has(path));
    if (size !== null) sizes.set(path, size);
  });
  return {
    regions,
    found: new Map(
      [...found].flatMap(([asked, file]): readonly (readonly [AskedFile, string])[] =>
        file !== null && sizes.has(file.path) ? [[asked, file.path]] : [],
      ),
    ),
    loaded: [...needed].flatMap((path) => {
      const size = sizes.get(path);
      return size === undefined ? [] : [{ path, size }];
    }),
    bytes: [...sizes.values()].reduce((sum, size) => sum + size, 0),
    asked: new Set([...asked].flatMap(({ path, kept }) => (kept === null ? [path] : [path, kept]))),
  };
};

/** Null for what is no file, or can't be looked at and is not needed. */
const sizeOf = async (files: Files, path: string, isNeeded: boolean): Promise<number | null> => {
  try {
    const info = await files.info(path);
    return info?.kind === 'file' ? info.size : null;
  } catch (error) {
    if (isNeeded || !(error instanceof InputError)) throw error;
    return null;
  }
};
