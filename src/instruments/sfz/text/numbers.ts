/** Digits with a sign, a decimal point and an exponent if need be, at the start of a text. */
const leading = /^[ \t]*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)/u;

const leadingWhole = /^[ \t]*([+-]?\d+)/u;

const noteName = /^[ \t]*([a-g])([#♯b♭]?)([+-]?\d{1,3})[ \t]*$/iu;

/** Semitones above C of the names that are in use: no E sharp, B sharp, F flat or C flat. */
const pitches: Readonly<Record<string, number>> = {
  ...{ c: 0, 'c#': 1, db: 1, d: 2, 'd#': 3, eb: 3, e: 4, f: 5 },
  ...{ 'f#': 6, gb: 6, g: 7, 'g#': 8, ab: 8, a: 9, 'a#': 10, bb: 10, b: 11 },
};

const finite = (digits: string | undefined): number | null => {
  const value = digits === undefined ? NaN : Number(digits);
  // Not -0: it would show as 0 and yet differ from it.
  return Number.isFinite(value) ? value + 0 : null;
};

/**
 * The number that a value starts with; what follows it does not count.
 *
 * @returns null when something else stands in front, or when it is too large to be a number
 * @example leadingNumber('10garbage') // 10
 * @example leadingNumber('1.05e+001') // 10.5
 */
export const leadingNumber = (text: string): number | null => finite(leading.exec(text)?.[1]);

/**
 * A key by number or by name, C4 being 60. The number comes first: `57Edge` is 57 and `60.7` is 60.
 * Numbers are not held to 0-127.
 *
 * @returns null when it is neither, and for names below C-1
 * @example keyOf('c#4') // 61
 * @example keyOf('-1') // -1
 */
export const keyOf = (text: string): number | null => {
  const whole = leadingWhole.exec(text)?.[1];
  if (whole !== undefined) return finite(whole);
  const [, letter = '', accidental = '', octave] = noteName.exec(text) ?? [];
  if (octave === undefined) return null;
  const name = letter.toLowerCase() + accidental.replace('♯', '#').replace('♭', 'b').toLowerCase();
  const pitch = Object.hasOwn(pitches, name) ? pitches[name] : undefined;
  if (pitch === undefined) return null;
  const key = 12 * (Number(octave) + 1) + pitch;
  return key < 0 ? null : key;
};

/**
 * A switch: `on`, `off`, or a number, of which only 0 is off.
 *
 * @example onOff('ON') // true
 */
export const onOff = (text: string): boolean | null => {
  const word = text.trim().toLowerCase();
  if (word === 'on') return true;
  if (word === 'off') return false;
  const number = leadingNumber(word);
  return number === null ? null : number !== 0;
};
