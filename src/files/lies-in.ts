import { dirname, resolve } from 'node:path';
import { orMissing } from './attempt.ts';
import type { FolderCalls } from './folder-calls.ts';

/** What a path leads to, however it is written. */
export interface Identity {
  readonly dev: bigint;
  readonly ino: bigint;
}

export const isSame = (a: Identity, b: Identity): boolean => a.dev === b.dev && a.ino === b.ino;

/** Whether paths lie in `folder`, or are it: as they are written, or through links. */
export const liesIn = (calls: FolderCalls, folder: Identity): ((path: string) => boolean) => {
  const known = new Map<string, boolean>();
  const within = (path: string): boolean => {
    const answer = known.get(path);
    if (answer !== undefined) return answer;
    const there = orMissing(() => calls.stat(path));
    const above = dirname(path);
    const found = (there !== null && isSame(there, folder)) || (above !== path && within(above));
    known.set(path, found);
    return found;
  };
  return (path) => {
    if (within(resolve(path))) return true;
    const real = orMissing(() => calls.realpath(path));
    return real !== null && within(real);
  };
};
