/** True for a path from the root of a disk. */
export const isAbsolute = (path: string): boolean => /^(?:[A-Za-z]:)?\//u.test(path);

/** True for a plain path that does not stay in the folder it is seen from. */
export const leadsOut = (path: string): boolean =>
  isAbsolute(path) || path === '..' || path.startsWith('../');

/**
 * Paths as seen from the lowest folder that holds them all. Where some climb out of the folder that they
 * are seen from, that folder, whose name they do not tell, gets one.
 *
 * @returns null for paths from the roots of two disks
 * @example withoutCommonFolder(['kit.sfz', '../lib/a.wav']) // ['here/kit.sfz', 'lib/a.wav']
 */
export const withoutCommonFolder = (paths: readonly string[]): readonly string[] | null => {
  const stepsOf = (parts: readonly string[]): number => {
    const first = parts.findIndex((part) => part !== '..');
    return first < 0 ? parts.length : first;
  };
  const split = paths.map((path) => path.split('/'));
  const most = Math.max(...split.map(stepsOf));
  const taken = new Set(split.flat());
  let name = 'here';
  while (taken.has(name)) name += '-';
  const whole = split.map((parts) => {
    const steps = stepsOf(parts);
    return [...Array.from({ length: most - steps }, () => name), ...parts.slice(steps)];
  });
  const roots = new Set(split.map(([root = '']) => (/^(?:[A-Za-z]:)?$/u.test(root) ? root : '.')));
  if (roots.size > 1) return null;
  let common = 0;
  const [first = []] = whole;
  while (whole.every((parts) => common < parts.length - 1 && parts[common] === first[common])) {
    common += 1;
  }
  return whole.map((parts) => parts.slice(common).join('/'));
};
