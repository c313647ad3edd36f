import type { Program, Signal } from './program.ts';

/** True for what chooses articulations. */
export const selects = (signal: Signal): boolean =>
  signal.kind === 'switch' ||
  signal.kind === 'program' ||
  signal.kind === 'patch' ||
  ((signal.kind === 'controller' || signal.kind === 'channel') && signal.selects === true);

/** Keys that choose articulations, ascending. */
export const switchKeys = ({ signals }: Program): readonly number[] => {
  const keys = signals.flatMap((signal) =>
    signal.kind === 'switch'
      ? signal.keys.flatMap(([lo, hi]) => Array.from({ length: hi - lo + 1 }, (_, i) => lo + i))
      : [],
  );
  return [...new Set(keys)].sort((a, b) => a - b);
};
