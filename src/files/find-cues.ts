import { sep } from 'node:path';
import { byCodePoint } from '../terms/code-point-order.ts';
import { InputError, inputError } from '../terms/errors.ts';
import type { FileInfo, Files } from '../terms/files.ts';
import { identityOf } from './linked-files.ts';

/** What a folder is searched for: Standard MIDI Files, also wrapped in RIFF. */
const cueFile = /\.(?:mid|midi|smf|rmi|kar)$/i;

/** Characters that make an argument a pattern when no file of that very name exists. */
const patternSign = /[*?[\]{}!()]/;

/**
 * The cue files that arguments name: files as they are, folders with all .mid files below them,
 * and patterns such as `cues/1m*.mid`. Paths use `/`, ascend, and come once each.
 *
 * What has the name of a cue and is no file, and a link that leads nowhere, are found too: reading
 * them fails, and a cue that can't be read is named, never passed over.
 *
 * @throws {InputError} when an argument names nothing
 */
export const findCues = async (
  files: Files,
  args: readonly string[],
): Promise<readonly string[]> => {
  const found = new Set<string>();
  for (const arg of args) {
    // Elsewhere a backslash is a letter like any other.
    const path = sep === '\\' ? arg.replaceAll('\\', '/') : arg;
    for (const cue of await cuesAt(files, path)) found.add(cue);
  }
  return [...found].sort(byCodePoint);
};

const cuesAt = async (files: Files, path: string): Promise<readonly string[]> => {
  const info = await files.info(path);
  if (info?.kind === 'file') return [tidy(path)];
  if (info?.kind === 'other') throw inputError('path-not-a-file', path, {});
  const isFolder = info?.kind === 'folder';
  if (!isFolder && !patternSign.test(path)) throw inputError('path-missing', path, {});
  const cues = isFolder ? await cuesBelow(files, path, new Set()) : await cuesLike(files, path);
  if (cues.length === 0) throw inputError('cues-none', path, { where: path });
  return cues.map(tidy);
};

/** @param seen folders that were searched already: links may lead round in a circle */
const cuesBelow = async (
  files: Files,
  folder: string,
  seen: Set<string>,
): Promise<readonly string[]> => {
  const identity = await identityOf(files, folder);
  if (seen.has(identity)) return [];
  seen.add(identity);
  const found: string[] = [];
  for (const name of await files.list(folder)) {
    if (name.startsWith('.')) continue;
    const path = `${folder.replace(/\/+$/, '')}/${name}`;
    const info = await infoOrNull(files, path);
    if (info?.kind === 'folder') found.push(...(await cuesBelow(files, path, seen)));
    else if (info === null || cueFile.test(name)) found.push(path);
  }
  return found;
};

/** Null for a link that leads nowhere or in a circle: it may stand for a cue, or for a folder of them. */
const infoOrNull = async (files: Files, path: string): Promise<FileInfo | null> => {
  try {
    return await files.info(path);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
};

/** Loaded only here: most calls name files and folders. */
const cuesLike = async (files: Files, pattern: string): Promise<readonly string[]> => {
  const { matching } = await import('./matching.ts');
  return (await matching(files, pattern)).filter((path) => cueFile.test(path));
};

/** Without `./`, doubled slashes and the like. */
const tidy = (path: string): string => path.replace(/\/{2,}/g, '/').replace(/^(?:\.\/)+(?=.)/, '');
