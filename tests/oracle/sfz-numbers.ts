/** Numbers and note names as SFZ files write them: what leads counts, what trails is ignored. */

const number = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/i;
const note = /^([a-g])([#♯b♭]?)(-?\d+)/i;
const semitones: Readonly<Record<string, number>> = { c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 };
const noSuchNotes = ['e#', 'b#', 'fb', 'cb'];

/** The number that the text begins with; null: none, the opcode is rejected. */
export function realOf(text: string): number | null {
  const found = number.exec(text);
  return found === null ? null : Number(found[0]);
}

/** The same cut to a whole number: 10.7 is 10. */
export function integerOf(text: string): number | null {
  const real = realOf(text);
  return real === null ? null : Math.trunc(real) + 0;
}

/** A key as a number or as a note name: c4 is 60. */
export function keyOf(text: string): number | null {
  const integer = integerOf(text);
  if (integer !== null) return integer;
  const found = note.exec(text);
  if (found === null) return null;
  const [, letter = '', sign = '', octave = ''] = found;
  const accidental = sign.replace('♯', '#').replace('♭', 'b').toLowerCase();
  if (noSuchNotes.includes(letter.toLowerCase() + accidental)) return null;
  const shift = accidental === '#' ? 1 : accidental === 'b' ? -1 : 0;
  return 12 * (Number(octave) + 1) + semitones[letter.toLowerCase()]! + shift;
}
