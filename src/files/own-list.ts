import { byCodePoint } from '../terms/code-point-order.ts';
import { isOfSystem } from './attempt.ts';
import { sha256 } from './digest.ts';
import type { FolderCalls } from './folder-calls.ts';

/** The list in a folder that was written whole: of all its files but itself. */
export const listName = 'trim.json';

/** Far more than the list of any instrument has. */
const mostBytes = 64 * 2 ** 20;

/** What was written as one file: its size, and the sha256 of a text. */
interface Listed {
  readonly bytes: number;
  readonly sha256: string | null;
}

/** By path within the folder. */
export type OwnList = ReadonlyMap<string, Listed>;

/** The list in `folder`; null where there is none that can be read and believed: the folder is not ours. */
export const readOwnList = (calls: FolderCalls, folder: string): OwnList | null => {
  try {
    return listIn(JSON.parse(new TextDecoder().decode(readAll(calls, `${folder}/${listName}`))));
  } catch (error) {
    if (isOfSystem(error) || error instanceof SyntaxError) return null;
    throw error;
  }
};

const readAll = (calls: FolderCalls, path: string): Uint8Array => {
  const descriptor = calls.lstat(path).isFile() ? calls.openSource(path) : null;
  if (descriptor === null) return new Uint8Array();
  try {
    const stats = calls.fstat(descriptor);
    if (!stats.isFile() || stats.size > mostBytes) return new Uint8Array();
    const bytes = new Uint8Array(Number(stats.size));
    let filled = 0;
    while (filled < bytes.length) {
      const read = calls.read(descriptor, bytes.subarray(filled), filled);
      if (read === 0) break;
      filled += read;
    }
    return bytes.subarray(0, filled);
  } finally {
    calls.close(descriptor);
  }
};

const listIn = (json: unknown): OwnList | null => {
  if (!isRecord(json) || json['schema'] !== 'keepset/trim@1' || json['dryRun'] === true)
    return null;
  const files: unknown = json['files'];
  if (!Array.isArray(files)) return null;
  const list = new Map<string, Listed>();
  for (const file of files as readonly unknown[]) {
    if (!isRecord(file)) return null;
    const { path, bytes, sha256: digest = null } = file;
    if (typeof path !== 'string' || typeof bytes !== 'number') return null;
    if (digest !== null && typeof digest !== 'string') return null;
    list.set(path, { bytes, sha256: digest });
  }
  return list;
};

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/**
 * Names, at most `most`, of what is in `folder` and not on its list: files that somebody put there or
 * that have another size by now, links, pipes.
 */
export const othersIn = (
  calls: FolderCalls,
  folder: string,
  list: OwnList,
  most: number,
): readonly string[] => {
  const others: string[] = [];
  const look = (within: string): void => {
    const entries = [...calls.list(`${folder}/${within}`)];
    for (const entry of entries.sort((a, b) => byCodePoint(a.name, b.name))) {
      if (others.length === most) return;
      const path = within + entry.name;
      if (entry.isDirectory()) look(`${path}/`);
      else if (path !== listName && !isListed(calls, `${folder}/${path}`, list.get(path))) {
        others.push(path);
      }
    }
  };
  look('');
  return others;
};

const isListed = (calls: FolderCalls, full: string, listed: Listed | undefined): boolean => {
  if (listed === undefined) return false;
  const stats = calls.lstat(full);
  if (!stats.isFile() || Number(stats.size) !== listed.bytes) return false;
  return listed.sha256 === null || sha256(readAll(calls, full)) === listed.sha256;
};
