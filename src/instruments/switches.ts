import { contains, intersect, numbersIn, type Range } from '../terms/range.ts';
import type { Program, Signal } from './program.ts';

/** True for what chooses articulations. */
export const selects = (signal: Signal): boolean =>
  signal.kind === 'switch' ||
  signal.kind === 'program' ||
  signal.kind === 'patch' ||
  ((signal.kind === 'controller' || signal.kind === 'channel') && signal.selects === true);

/** Per signal the ranges that some gate asks it to be in. */
export const askedRanges = ({ signals, gates }: Program): readonly (readonly Range[])[] => {
  const asked = signals.map((): Range[] => []);
  for (const { signal, tests } of gates.flat()) {
    for (const { signal: other = signal, lo, hi } of tests) asked[other]!.push([lo, hi]);
  }
  return asked;
};

/**
 * Keys that choose articulations, latched or held, ascending: those that some zone asks for, and
 * their neighbours where switches are watched on keys that never play.
 */
export const switchKeys = (program: Program): readonly number[] => {
  const asked = askedRanges(program);
  const played = program.starts.flatMap(({ event, keys }) => (event === 'change' ? [] : [keys]));
  const keys = program.signals.flatMap((signal, i) => {
    if (signal.kind !== 'switch' && !(signal.kind === 'held' && signal.own)) return [];
    return signal.keys.flatMap((watched) => {
      const all = numbersIn(watched);
      if (signal.kind === 'held' || !played.some((keys) => intersect(keys, watched) !== null)) {
        return all;
      }
      return all.filter((key) => asked[i]!.some((range) => contains(range, key)));
    });
  });
  return [...new Set(keys)].sort((a, b) => a - b);
};
