/** True for a path from the root of a disk. */
export const isAbsolute = (path: string): boolean => /^(?:[A-Za-z]:)?\//u.test(path);

/** True for a plain path that does not stay in the folder it is seen from. */
export const leadsOut = (path: string): boolean =>
  isAbsolute(path) || path === '..' || path.startsWith('../');

/** The folder that all paths lie in, with a slash at its end, or empty; null: they have none in common. */
export const commonFolder = (paths: readonly string[]): string | null => {
  const [first = [], ...others] = paths.map((path) => path.split('/').slice(0, -1));
  let length = first.length;
  for (const folders of others) {
    let same = 0;
    while (same < length && folders[same] === first[same]) same += 1;
    length = same;
  }
  const common = first.slice(0, length);
  // What is left of a path must not climb out of the folder again.
  const climbs = paths.some((path) => path.split('/').slice(length).includes('..'));
  return climbs ? null : common.map((folder) => `${folder}/`).join('');
};
