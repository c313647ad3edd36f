import type { Miss } from './check.ts';

/** True when the notes as they stand ask for it, whatever the files do not tell. */
export const isPlain = ({ doubts }: Pick<Miss, 'doubts'>): boolean =>
  doubts.some(({ length }) => length === 0);
