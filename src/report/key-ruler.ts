import { keyName } from '../terms/key.ts';
import type { Range } from '../terms/range.ts';

/** Keys in an octave. */
const octave = 12;

/** Each divides an octave, so that every C begins a place. */
const steps = [1, 2, 3, 4, 6, 12] as const;

/**
 * How many keys share a place so that all of them fit.
 *
 * @param room columns that there are; null: as many as it takes
 */
export const keysPerPlace = (keys: Range, room: number | null): number =>
  room === null
    ? 1
    : (steps.find((step) => {
        const [from, to] = fullPlaces(keys, step);
        return (to - from + 1) / step <= room;
      }) ?? octave);

/** The same keys from the beginning of a place to the end of one. */
export const fullPlaces = ([lo, hi]: Range, step: number): Range => [
  Math.floor(lo / step) * step,
  Math.floor(hi / step) * step + step - 1,
];

/**
 * The two lines above a map: every C with its number, as far as there is room, and where it is.
 *
 * @param keys whole places
 * @param marked a key to point at
 */
export const keyRuler = (
  [from, to]: Range,
  step: number,
  marked: number | null,
  { ascii, middleC }: { readonly ascii: boolean; readonly middleC?: number },
): readonly [names: string, ticks: string] => {
  const width = (to - from + 1) / step;
  const ticks = new Array<string>(width).fill(' ');
  let names = '';
  for (let key = Math.ceil(from / octave) * octave; key <= to; key += octave) {
    const at = (key - from) / step;
    ticks[at] = '|';
    const label = `${keyName(key, middleC)} ${String(key)}`;
    const begins = names === '' ? at >= names.length : at > names.length;
    if (begins && at + label.length <= Math.max(width, label.length)) {
      names = names.padEnd(at) + label;
    }
  }
  if (marked !== null && marked >= from && marked <= to) {
    ticks[Math.floor((marked - from) / step)] = ascii ? 'v' : '▾';
  }
  return [names, ticks.join('').trimEnd()];
};
