import type { Program } from '../instruments/program.ts';

/** The signals that fades follow, ascending: the order of ranges in a moment of a voice's life. */
export const fadingSignals = (program: Program): readonly number[] =>
  [...new Set(program.starts.flatMap(({ fades }) => fades.map(({ signal }) => signal)))].sort(
    (a, b) => a - b,
  );
