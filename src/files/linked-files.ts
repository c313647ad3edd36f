import type { Files } from '../terms/files.ts';

/** A disk with links, where one folder may stand under many paths, even inside itself. */
export interface LinkedFiles extends Files {
  /** The same for every path that leads to one file or folder; null when none does. */
  identity(path: string): Promise<string | null>;
}

/** What `path` really is; its own name on a disk without links. */
export const identityOf = async (files: Files, path: string): Promise<string> => {
  const linked = 'identity' in files ? (files as LinkedFiles) : null;
  return (await linked?.identity(path)) ?? path;
};
