import { plainPath } from '../instruments/sfz/text/paths.ts';
import { inputError } from '../terms/errors.ts';
import type { Definition } from './definitions.ts';
import type { OutputFile } from './output-file.ts';
import { isAbsolute, leadsOut, withoutCommonFolder } from './paths.ts';
import type { Trimmed } from './trimmed.ts';

/** A definition with its place in the output folder. */
export interface Placed {
  readonly definition: Definition;
  readonly trimmed: Trimmed;
  /** Of the definition itself, within the output folder. */
  readonly path: string;
  /** All files, their paths within the output folder. */
  readonly files: readonly OutputFile[];
}

/**
 * Gives each definition its place in the output folder: where it is seen from the template's folder, so
 * that the output looks like what it was made from. Where two would write one file differently, or files
 * lie outside that folder, a definition gets a folder of its own, named after its instrument. The only
 * definition of a plan without a template lies as high up as it can.
 *
 * @param hasTemplate whether there is a folder to look like
 * @throws {InputError} `trim-path` when files have no folder in common; `trim-names-collide`
 */
export const placeAll = (
  written: readonly (readonly [Definition, Trimmed])[],
  hasTemplate = true,
): readonly Placed[] => {
  const trimmed = written.map(([definition, one]) => [definition, withPlainPaths(one)] as const);
  const texts = new Map<string, number>();
  for (const [, { files }] of trimmed) {
    for (const file of files) {
      if (!isCopy(file)) texts.set(file.path, (texts.get(file.path) ?? 0) + 1);
    }
  }
  const isShared = ({ files }: Trimmed): boolean =>
    files.some(({ path }) => (texts.get(path) ?? 0) > 1);
  const names = new Set(
    trimmed.flatMap(([, { files }]) => files.map(({ path }) => firstName(path).toLowerCase())),
  );
  const placed = trimmed.map(([definition, one]): Placed => {
    const apart = isShared(one) || one.files.some(({ path }) => leadsOut(path));
    const files = !hasTemplate
      ? withoutCommon(definition, one)
      : apart
        ? inOwnFolder(definition, one, names)
        : one.files;
    return { definition, trimmed: one, path: files[0]!.path, files };
  });
  checkNames(placed.flatMap(({ files }) => files.map(({ path }) => path)));
  return placed;
};

/** People write `./keys.sf2`. */
const withPlainPaths = (one: Trimmed): Trimmed => ({
  ...one,
  files: one.files.map((file) => ({ ...file, path: plainPath(file.path) })),
});

/** Copied whole from one file: the same wherever it is written. */
const isCopy = ({ pieces: [first, ...rest] }: OutputFile): boolean =>
  first?.kind === 'copy' && rest.length === 0;

const firstName = (path: string): string => path.replace(/\/.*/su, '');

/** @param names of the output folder that are taken, in lower case; the one that is found is added */
const inOwnFolder = (
  definition: Definition,
  trimmed: Trimmed,
  names: Set<string>,
): readonly OutputFile[] => {
  const files = withoutCommon(definition, trimmed);
  const folder = freeName(definition.instruments[0]!, names);
  return files.map((one) => ({ ...one, path: `${folder}/${one.path}` }));
};

/** Without the folders that all of them lie in. */
const withoutCommon = ({ path }: Definition, { files }: Trimmed): readonly OutputFile[] => {
  const odd = files.find((one) => isAbsolute(one.path) !== isAbsolute(path));
  const paths = withoutCommonFolder(files.map((one) => one.path));
  if (odd !== undefined || paths === null) {
    throw inputError('trim-path', path, { path: odd?.path ?? path, reason: 'absolute' });
  }
  return files.map((one, i) => ({ ...one, path: paths[i]! }));
};

/** An id as a folder's name: letters and digits of any script stay. */
const freeName = (id: string, names: Set<string>): string => {
  const plain = id.replace(/[^\p{L}\p{N}_-]+/gu, '-').replace(/^-+|-+$/gu, '') || 'instrument';
  let name = plain;
  for (let count = 2; names.has(name.toLowerCase()); count += 1) name = `${plain}-${String(count)}`;
  names.add(name.toLowerCase());
  return name;
};

/** On some disks capitals, or forms of accents, do not make another name: one file would replace the other. */
const checkNames = (paths: readonly string[]): void => {
  const seen = new Map<string, string>();
  for (const path of paths) {
    for (let end = path.indexOf('/'); ; end = path.indexOf('/', end + 1)) {
      const part = end < 0 ? path : path.slice(0, end);
      const key = part.normalize('NFC').toLowerCase();
      const other = seen.get(key);
      if (other !== undefined && other !== part) {
        throw inputError('trim-names-collide', part, { first: other, second: part });
      }
      seen.set(key, part);
      if (end < 0) break;
    }
  }
};
