/** Where a path without a folder in front starts: `/` or a drive. */
const rootOf = (path: string): string => /^(?:[A-Za-z]:)?\//u.exec(path)?.[0] ?? '';

/**
 * A path without `.`, empty parts and steps that `..` takes back.
 *
 * @example plainPath('kits/./a/../drums.sfz') // 'kits/drums.sfz'
 */
export const plainPath = (path: string): string => {
  const root = rootOf(path);
  const parts: string[] = [];
  for (const part of path.slice(root.length).split('/')) {
    if (part === '' || part === '.') continue;
    if (part !== '..') parts.push(part);
    else if (parts.length > 0 && parts.at(-1) !== '..') parts.pop();
    else if (root === '') parts.push('..');
  }
  return root + parts.join('/');
};

/** The folder of a file with a slash at its end; empty for a file of the working folder. */
export const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);

/** Backslashes divide folders too. */
export const withSlashes = (path: string): string => path.replaceAll('\\', '/');

/**
 * Where a path that an instrument names leads.
 *
 * @param folder the folder of the instrument's root file, from {@link folderOf}
 * @returns `outside`: true when it is not in that folder or one in it
 */
export const pathFrom = (
  folder: string,
  written: string,
): { readonly path: string; readonly outside: boolean } => {
  const asked = withSlashes(written);
  if (rootOf(asked) === '') {
    const within = plainPath(asked);
    return {
      path: plainPath(folder + asked),
      outside: within === '..' || within.startsWith('../'),
    };
  }
  const path = plainPath(asked);
  const home = plainPath(folder);
  return { path, outside: rootOf(home) === '' || !path.startsWith(`${home.replace(/\/$/u, '')}/`) };
};

/** The root of a path and its names. */
export const namesOf = (
  path: string,
): { readonly root: string; readonly names: readonly string[] } => {
  const root = rootOf(path);
  return { root, names: path.slice(root.length).split('/') };
};
