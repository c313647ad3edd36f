import { tidy } from './tidy.ts';

/** Semitones of the white keys above C. */
const semitones: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };

const accidentals: Readonly<Record<string, number>> = { '#': 1, '♯': 1, b: -1, '♭': -1, '♮': 0 };

const keyNumber = /^\d{1,3}$/u;
const keyName = /^([a-g]) ?([#♯b♭♮]?) ?(-?\d{1,2})$/u;

/**
 * Which octave key 60 bears in a manual or template.
 *
 * @returns the octave, 2 to 6; null when it cannot be read
 * @example parseMiddleC('C4') // 4
 */
export const parseMiddleC = (text: string): number | null => {
  const octave = /^c ?([2-6])$/u.exec(tidy(text).toLowerCase())?.[1];
  return octave === undefined ? null : Number(octave);
};

/**
 * A MIDI key by number or by name: a letter, a sharp (`#` `♯`) or flat (`b` `♭`) if need be, the
 * octave. `Cb4` is the key below `C4`.
 *
 * @param middleC the octave that key 60 bears, from {@link parseMiddleC}
 * @returns 0-127; null when it cannot be read or lies outside
 * @example parseKey('Bb-1', 4) // 10
 * @example parseKey('C3', 3) // 60
 */
export const parseKey = (text: string, middleC: number): number | null => {
  const tidied = tidy(text).toLowerCase();
  if (keyNumber.test(tidied)) return Number(tidied) <= 127 ? Number(tidied) : null;
  const [, letter, accidental = '', octave] = keyName.exec(tidied) ?? [];
  if (letter === undefined || octave === undefined) return null;
  const above = (semitones[letter] ?? 0) + (accidentals[accidental] ?? 0);
  const key = 60 + 12 * (Number(octave) - middleC) + above;
  return key >= 0 && key <= 127 ? key : null;
};
