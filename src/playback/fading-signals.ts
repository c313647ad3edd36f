import type { Program } from '../instruments/program.ts';

const found = new WeakMap<Program, readonly number[]>();

/** The signals that fades follow, ascending: the order of ranges in a moment of a voice's life. */
export const fadingSignals = (program: Program): readonly number[] => {
  let fading = found.get(program);
  if (fading === undefined) found.set(program, (fading = find(program)));
  return fading;
};

const find = ({ starts }: Program): readonly number[] => {
  const fading = new Set<number>();
  for (const { fades } of starts) for (const { signal } of fades) fading.add(signal);
  return [...fading].sort((a, b) => a - b);
};
